import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    // Whole-program tests spawn processes and simulate circuits; the default five seconds is too short for them.
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Pseudo-terminal tests read a screen that another process is drawing; a loaded machine may tear one frame.
    retry: 1,
    // Tests keep nothing in modules, so the knowledge is read once for each worker and not for each file.
    isolate: false,
    // A file a core: the machine's other core would stand idle.
    maxWorkers: '100%',
    // As where it is on the path, whatever runs the tests.
    env: { TZ: 'UTC', FORCE_COLOR: '0', npm_command: '' },
  },
});
