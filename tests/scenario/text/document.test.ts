/** Texts that a parser of YAML takes long over, or for something else than was written. */
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../../src/base/problem.ts';
import { readDocument } from '../../../src/scenario/text/document.ts';

function problemsOf(text: string): string[] {
  const problems: Problem[] = [];
  readDocument('a.yaml', text, problems);
  return problems.map(({ line, found }) => `${line} ${found}`);
}

describe('the tree of a YAML text', () => {
  it('names a key that stands twice, at its second place', () => {
    expect(problemsOf('a: 1\nb:\n  c: 1\n  c: 2\na: 3\n')).toEqual([
      '4 c a second time',
      '5 a a second time',
    ]);
  });

  it('takes many keys in time that grows in proportion', () => {
    const text = Array.from({ length: 50_000 }, (_, k) => `k${k}: 1\n`).join('');
    expect(problemsOf(text)).toEqual([]);
  });

  it('refuses brackets without end before they are followed', () => {
    const deep = ['1 brackets within brackets, more than 64 deep'];
    expect(problemsOf(`a: ${'['.repeat(200_000)}`)).toEqual(deep);
    expect(problemsOf(`a: ${'{b: '.repeat(500)}1${'}'.repeat(500)}`)).toEqual(deep);
    expect(problemsOf(`a: ${'['.repeat(60)}${']'.repeat(60)}`)).toEqual([]);
  });

  it('takes no reference to another place, so that nothing multiplies', () => {
    expect(problemsOf('a: &a [x, x]\nb: [*a, *a]\n')).toEqual([
      '2 a reference to another place of the file',
      '2 a reference to another place of the file',
    ]);
  });

  it('knows no key that the language itself uses', () => {
    const tree = readDocument('a.yaml', '__proto__: 1\nconstructor: 2\n', []);
    expect([...(tree?.entries.keys() ?? [])]).toEqual(['__proto__', 'constructor']);
  });
});
