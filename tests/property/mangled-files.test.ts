import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';
import { readScenario } from '../../src/scenario/read.ts';

const root = new URL('../../', import.meta.url).pathname;
const texts = new Map<string, string>();
for (const name of readdirSync(`${root}models`).filter((file) => file.endsWith('.yaml'))) {
  texts.set(`models/${name}`, readFileSync(`${root}models/${name}`, 'utf8'));
}
for (const name of ['tray-out.yaml', 'end-of-life.yaml', 'recorded-training.yaml']) {
  texts.set(`scenarios/${name}`, readFileSync(`${root}scenarios/${name}`, 'utf8'));
}
texts.set('scenarios/loads/training-two-accelerators-50hz.csv', 'time_s,power_W\n');
const scenarios = [...texts.keys()].filter((file) => file.startsWith('scenarios/') && file.endsWith('.yaml'));

/** Files that each scenario reads: a slip elsewhere is none. */
const readBy = new Map(
  scenarios.map((scenario) => {
    const asked = new Set<string>();
    const files = (path: string) => {
      asked.add(path);
      return { text: texts.get(path)!, sha256: '' };
    };
    readScenario(scenario, { files });
    return [scenario, [...asked]];
  }),
);

/** Paths of numbers that are not finite. */
function brokenNumbers(value: unknown, path: string): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => brokenNumbers(inner, `${path}.${key}`));
}

/** What a slip of the hand does to a text. */
const slips: readonly ((text: string, at: number, word: string) => string)[] = [
  (text, at) => text.slice(0, at) + text.slice(at + 1),
  (text, at, word) => text.slice(0, at) + word + text.slice(at),
  (text, at) => text.slice(0, at),
  (text, at) => {
    const lines = text.split('\n');
    lines.splice(at % lines.length, 1);
    return lines.join('\n');
  },
  (text, at) => {
    const lines = text.split('\n');
    const line = lines[at % lines.length]!;
    return [...lines, line].join('\n');
  },
  (text, at, word) => {
    const lines = text.split('\n');
    lines[at % lines.length] = lines[at % lines.length]!.replace(/:.*$/, `: ${word}`);
    return lines.join('\n');
  },
];

const words = [
  '',
  '-',
  '0',
  ':',
  '[',
  '{ a: 1 }',
  '[]',
  '{}',
  '\t',
  'null',
  '~',
  '"',
  '&a',
  '*a',
  '1e999',
  '%',
  'none',
  '-5 V',
  '\u0000',
];

describe('readScenario on mangled files', () => {
  it('gives a scenario of finite numbers or BadInput, never anything else', () => {
    const slip = fc.record({
      scenario: fc.constantFrom(...scenarios),
      which: fc.nat(1000),
      how: fc.nat(slips.length - 1),
      at: fc.nat(20_000),
      word: fc.constantFrom(...words),
    });
    let refused = 0;
    fc.assert(
      fc.property(slip, ({ scenario, which, how, at, word }) => {
        const read = readBy.get(scenario)!;
        const target = read[which % read.length]!;
        const files = (path: string) => {
          const text = texts.get(path);
          if (text === undefined) throw new Error('no such file');
          const mangled = path === target ? slips[how]!(text, at % (text.length + 1), word) : text;
          return { text: mangled, sha256: '' };
        };
        try {
          const { scenario: whole } = readScenario(scenario, { files });
          expect(brokenNumbers(whole, '')).toEqual([]);
        } catch (error) {
          if (!(error instanceof BadInput)) throw error;
          expect(error.problems.some((problem) => problem.severity === 'error')).toBe(true);
          refused += 1;
        }
      }),
      { seed: 20253, numRuns: 120 },
    );
    // The slips do bite.
    expect(refused).toBeGreaterThan(40);
  });
});
