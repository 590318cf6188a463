import { describe, expect, test } from 'vitest';
import { asCalled, calledAs } from '../../src/cli/called.ts';

describe('printed commands', () => {
  test('begin as the user began', () => {
    const script = '/home/me/buswake/src/cli/buswake.ts';
    expect(calledAs(script, { npm_lifecycle_event: 'buswake' }, '/home/me/buswake')).toBe(
      'npm run -s buswake --',
    );
    expect(calledAs('/x/node_modules/.bin/buswake', { npm_command: 'exec' }, '/x')).toBe('npx buswake');
    expect(calledAs(script, {}, '/home/me/buswake')).toBe('node --import tsx src/cli/buswake.ts');
    expect(calledAs('/usr/local/bin/buswake', { npm_lifecycle_event: 'demo' }, '/')).toBe('buswake');
  });

  test('are changed where a command stands, and nowhere else', () => {
    const text = 'buswake: see it: buswake view out/run\nThis is a mistake in buswake, not in buswake runs.';
    expect(asCalled(text, 'npx buswake', ['view', 'run'])).toBe(
      'buswake: see it: npx buswake view out/run\nThis is a mistake in buswake, not in buswake runs.',
    );
    // Where the screen ended behind its first word.
    expect(asCalled('then buswake\n  view out/run', 'npx buswake', ['view'])).toBe(
      'then npx buswake\n  view out/run',
    );
  });
});
