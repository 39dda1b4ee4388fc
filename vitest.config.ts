import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['**/node_modules/**', 'dist/**', 'tests/editor/**'],
    environment: 'node',
    testTimeout: 20_000,
    // Every test says what it needs; nothing leaks from one file into another.
    restoreMocks: true,
  },
});
