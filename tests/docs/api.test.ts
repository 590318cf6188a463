/** The page of what the library offers says what the docstrings beside the code say, and every export has one. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { apiPage, apiPagePath } from '../../scripts/api-page.ts';
import { jsonPage, jsonPagePath } from '../../scripts/json-page.ts';

const page = apiPage();

it('the page of the library is written from the docstrings as they are: npm run check:api', () => {
  expect(readFileSync(apiPagePath, 'utf8')).toBe(page);
});

it('the page of documents is written from the types as they are: npm run check:api', () => {
  expect(readFileSync(jsonPagePath, 'utf8')).toBe(jsonPage());
});

it('every function of the library says what it does', () => {
  const functions = [...page.matchAll(/```ts\nfunction (\w+)[\s\S]*?```\n\n(.*)/g)];
  expect(functions.map(([, name]) => name).sort()).toEqual(
    [
      'check',
      'check',
      'duty',
      'matrix',
      'rating',
      'readBundle',
      'readBundle',
      'run',
      'run',
      'size',
      'spread',
      'traceOf',
    ].sort(),
  );
  for (const [, name, said] of functions) expect([name, said!.startsWith('#')]).toEqual([name, false]);
});
