import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    // Whole-program tests spawn processes and simulate circuits; the default five seconds is too short for them.
    testTimeout: 60_000,
    hookTimeout: 60_000,
    env: { TZ: 'UTC', FORCE_COLOR: '0' },
  },
});
