import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/** These install the package, or run out of memory on purpose: each file in a process of its own. */
const apart = ['package', 'property'].map((folder) => `tests/${folder}/**/*.test.ts`);

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    globalSetup: 'tests/build-first.ts',
    reporters: ['default', ['json', { outputFile: 'out/tests.json' }]],
    testTimeout: 240_000,
    hookTimeout: 120_000,
    execArgv: ['--expose-gc'],
    // One more than there are cores: many files wait for the commands and browsers that they start.
    maxWorkers: availableParallelism() + 1,
    projects: [
      { extends: true, test: { name: 'apart', include: apart } },
      // Files of one worker share their modules: a third of their time went into loading them anew.
      {
        extends: true,
        test: { name: 'together', include: ['tests/**/*.test.ts'], exclude: apart, isolate: false },
      },
    ],
  },
});
