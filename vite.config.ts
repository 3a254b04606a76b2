import optimizeLocales from '@react-aria/optimize-locales-plugin';
import react from '@vitejs/plugin-react';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const path = (name: string) => fileURLToPath(new URL(name, import.meta.url));

/** Two programs: the pages, and the bench record, which has to be small and to run without a network. */
export default defineConfig({
  root: path('src/web'),
  publicDir: path('src/web/public'),
  plugins: [react(), { ...optimizeLocales.vite({ locales: ['en-GB', 'en-US'] }), enforce: 'pre' }],
  json: { stringify: true },
  build: {
    outDir: path('dist/web'),
    emptyOutDir: true,
    target: 'es2022',
    rollupOptions: {
      input: { index: path('src/web/index.html'), bench: path('src/web/bench.html') },
    },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:7420' } },
});
