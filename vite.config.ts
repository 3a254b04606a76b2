import optimizeLocales from '@react-aria/optimize-locales-plugin';
import react from '@vitejs/plugin-react';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';
import { NONCE_MARK } from './src/server/nonce.ts';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** The pages. `scripts/build.mjs` says where they go and adds the service worker. */
export default defineConfig({
  root: here('src/web'),
  // Facts are parsed faster as text than as object literals.
  json: { stringify: true },
  plugins: [
    react(),
    // Our pages speak English, and so do the words that the components bring.
    { ...optimizeLocales.vite({ locales: ['en-US', 'en-GB'] }), enforce: 'pre' },
  ],
  // The server puts a fresh nonce in the place of the mark in each answer.
  html: { cspNonce: NONCE_MARK },
  build: {
    target: 'es2023',
    modulePreload: { polyfill: false },
    // No data: addresses for fonts and scripts: the policy of the pages does not take them.
    assetsInlineLimit: 0,
    rolldownOptions: {
      input: { index: here('src/web/index.html'), bench: here('src/web/bench.html') },
    },
  },
  server: {
    // Not the modules of src/web/api, which a page in development asks for under the same word.
    proxy: { '^/api/(?!.*\\.tsx?$)': 'http://127.0.0.1:7420' },
  },
});
