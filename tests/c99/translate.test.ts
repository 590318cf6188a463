/** The translator of laws: what it writes in C, and what it refuses with file and line. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { translateLaw } from '../../scripts/c99/translate.ts';
import { programOf } from '../../scripts/kernel/program.ts';

/** A law of one function over a table of one number and one column. */
const around = (body: string, before = ''): string => `type Int = number;
${before}
export interface Law { readonly gain: number; readonly count: Int; readonly isOn: boolean;
/** Volts. */
readonly x_V: Float64Array }
export function runLaw(law: Law, out_V: Float64Array): void {
  ${body}
}
`;

const refusals = [
  ['a closure', 'const f = (x: number): number => x; f(1);', 'takes no such expression'],
  [
    'what the library has',
    'out_V[law.count] = Math.hypot(1, 2);',
    'calls functions that stand by themselves',
  ],
  ['powers', 'out_V[law.count] = law.gain ** 2;', 'takes no such operator'],
  ['a remainder', 'out_V[law.count] = law.gain % 2;', 'takes no such operator'],
  ['a place that may be broken', 'out_V[law.gain] = 1;', 'a place is an Int'],
  ['a number as a condition', 'if (law.gain) out_V[law.count] = 1;', 'it is no flag'],
  ['a loop without an end of its own', 'while (law.isOn) out_V[law.count] = 1;', 'takes no such statement'],
  ['an assignment inside', 'out_V[law.count] = out_V[law.count] = 1;', 'an assignment stands by itself'],
  ['a list', 'const list = [1, 2]; out_V[law.count] = list.length;', 'takes no such expression'],
  ['a word of C', 'const long = law.gain; out_V[law.count] = long;', 'long is a word of C'],
] as const;

/** Every module that is translated here, by its file. */
const texts: Readonly<Record<string, string>> = {
  'orders-law.ts': around(
    'for (let k = 0; k < law.count; k++) out_V[k] = law.gain * (law.x_V[k]! - 1) / law.count + (k + 1) / 2;',
  ),
  'writes-law.ts': around(
    'law.x_V[place(law)] = 1; out_V[place(law)] = 2;',
    '/** Where. */ function place(law: Law): Int { let k: Int = 0; k++; return k; }',
  ),
  'runs-law.ts': around('').replace('runLaw', 'law'),
  ...Object.fromEntries(refusals.map(([, body], k) => [`refused-${k}-law.ts`, around(body)])),
};

let folder: string;
let program: ReturnType<typeof programOf>;
beforeAll(() => {
  folder = mkdtempSync('tests/c99/laws-');
  for (const [file, text] of Object.entries(texts)) writeFileSync(join(folder, file), text);
  program = programOf(...Object.keys(texts).map((file) => join(folder, file)));
});
afterAll(() => rmSync(folder, { recursive: true }));

const translated = (file: keyof typeof texts) => translateLaw(join(folder, file), program).inC;

function saidTo(file: string): string {
  try {
    translated(file);
  } catch (error) {
    return (error as Error).message;
  }
  return 'taken';
}

describe('a law', () => {
  it('is C with the same operations in the same order', () => {
    expect(translated('orders-law.ts').source).toContain(
      'out_V[k] = law->gain * (law->x_V[k] - 1) / law->count + (double)((k + 1)) / 2;',
    );
  });

  it('says which columns it writes, and hands on what is said of it', () => {
    const { header, structures, parameters, runs } = translated('writes-law.ts');
    expect(header).toContain('  /** Volts. */\n  double *x_V;');
    expect(header).toContain('void runLaw(const Law *law, double *out_V);');
    expect(structures).toEqual({ Law: [['x_V', 'Float64Array']] });
    expect([runs, parameters]).toEqual([
      'runLaw',
      [
        ['law', 'Law'],
        ['out_V', 'Float64Array'],
      ],
    ]);
  });
});

describe('the translator refuses, with file and line,', () => {
  it.each(refusals.map(([what, , why], k) => [what, k, why] as const))('%s', (_, k, why) => {
    const said = saidTo(`refused-${k}-law.ts`);
    expect(said).toContain(why);
    expect(said).toMatch(new RegExp(`refused-${k}-law\\.ts:7:\\d+: `));
  });

  it('a module without one function that runs it', () => {
    expect(saidTo('runs-law.ts')).toContain('one function of a law is called run…, not 0');
  });
});
