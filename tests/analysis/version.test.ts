import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { toolVersion } from '../../src/version.ts';

test('the version in reports is the one of the package', () => {
  const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
  expect(toolVersion).toBe(JSON.parse(text).version);
});
