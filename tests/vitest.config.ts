import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    globalSetup: 'tests/build-first.ts',
    reporters: ['default', ['json', { outputFile: 'out/tests.json' }]],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    execArgv: ['--expose-gc'],
    // Files of one worker share their modules: a third of the whole time went into loading them anew.
    isolate: false,
  },
});
