import { expect, it } from 'vitest';
import { inComment } from '../../src/embed/origin.ts';

it('a text in a comment of C neither ends it nor begins another', () => {
  const hostile = ['*/ int x; /*', '/**/', '**/', 'scenarios/*.yaml', '//', '*//*'];
  for (const text of hostile) expect(inComment(text)).not.toMatch(/\*\/|\/\*/);
  // What a compiler joins or replaces before it looks for comments.
  for (const text of ['*\\\n/ #define memcmp', '*??/\n/ int x;', '*\u2028/', '\\'])
    expect(inComment(text)).not.toMatch(/[\n\u2028]|\\$|\?\?|\*\//);
  expect(inComment('scenarios/mine.yaml, 3 * 4 / 2')).toBe('scenarios/mine.yaml, 3 * 4 / 2');
});
