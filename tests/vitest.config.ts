import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    globalSetup: 'tests/build-first.ts',
    include: ['tests/**/*.test.ts'],
    reporters: ['default', ['json', { outputFile: 'out/tests.json' }]],
    testTimeout: 240_000,
    hookTimeout: 120_000,
    execArgv: ['--expose-gc'],
    // One more than there are cores: many files wait for the commands and browsers that they start.
    maxWorkers: availableParallelism() + 1,
    // Files of one worker share their modules: a third of their time went into loading them anew.
    isolate: false,
  },
});
