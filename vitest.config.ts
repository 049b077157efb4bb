import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    passWithNoTests: false,
    testTimeout: 120_000,
    hookTimeout: 60_000,
  },
});
