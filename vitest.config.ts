import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['src/**/*.test.{ts,tsx}', 'test/**/*.test.{ts,tsx}'],
    testTimeout: 60_000,
    // A golden that is missing or differs fails; `npm run goldens` alone writes them.
    update: 'none',
  },
});
