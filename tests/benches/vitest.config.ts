import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: { include: ['tests/benches/*.bench.ts'], testTimeout: 300_000, fileParallelism: false },
});
