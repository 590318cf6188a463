/** The translator of the kernel: what it takes gives the same bits compiled, what it does not take is refused by name. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compileKernel } from '../../scripts/kernel/compile.ts';
import { translate } from '../../scripts/kernel/translate.ts';
import { wasm } from '../../src/base/wasm.ts';
import { SharedMemory } from '../../src/engine/fast/shared-memory.ts';
import { Units } from './fixture.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync('tests/kernel/refused-');
});
afterAll(() => rmSync(folder, { recursive: true }));

/** What the translator says to a module. */
function saidTo(text: string): string {
  const file = join(folder, 'module.ts');
  writeFileSync(file, text);
  try {
    translate(file);
  } catch (error) {
    return (error as Error).message;
  }
  return 'taken';
}

describe('a translated kernel', () => {
  it('gives the same bits as the code that it was made from, over the same objects', async () => {
    const { bytes, layouts } = await compileKernel('tests/kernel/fixture.ts');
    expect(layouts.Units!.map(([name]) => name)).not.toContain('names');
    const shared = new SharedMemory(wasm!, layouts, 4096);
    const { exports } = new wasm!.Instance(new wasm!.Module(bytes), { env: { memory: shared.memory } });
    const { step } = exports as { step: (units: number, v: number) => number };
    const [plain, compiled] = [0, 1].map(() => new Units(['a', 'b', 'c', 'd', 'e'], 1.7)) as [Units, Units];
    const address = shared.place(compiled, 'Units');
    // The last fills the tank.
    for (const v of [0.3, 2.5, 4.1, -1 / 3, 1e-9, 7, 40]) {
      expect(step(address, v)).toBe(plain.step(v));
      expect([...compiled.out, ...compiled.past, ...compiled.state]).toEqual([
        ...plain.out,
        ...plain.past,
        ...plain.state,
      ]);
      expect(compiled.parts[0].level).toEqual(plain.parts[0].level);
      expect(compiled.parts[1].turns).toEqual(plain.parts[1].turns);
    }
  });
});

describe('the translator refuses', () => {
  it.each([
    [
      'a number that may change',
      'class A { n = 0; constructor() {} } export function f(a: A): number { return a.n; }',
      'A.n must say its type',
    ],
    [
      'a field that may be replaced',
      'interface A { n: number } export function f(a: A): number { return a.n; }',
      'A.n must be readonly: the memory has its value as it was',
    ],
    [
      'a field that is no number, column or structure',
      'interface A { readonly n: string[] } export function f(a: A): string[] { return a.n; }',
      'A.n is a string[], which the memory does not hold',
    ],
    [
      'members taken from a call',
      'interface A { readonly n: number } function g(a: A): A { return a; } export function f(a: A): number { const { n } = g(a); return n; }',
      '{ n } must be taken from a name or a member',
    ],
    [
      'what is not exact to the last bit',
      'export function f(a: number): number { return Math.exp(a); }',
      'Math.exp does not give the same bits everywhere',
    ],
    ['a power', 'export function f(a: number): number { return a ** 3; }', 'a ** 3 does not give'],
    [
      'a loop over a list of one kind',
      'export function f(a: readonly number[]): void { for (const b of a) Math.abs(b); }',
      'a is no list of structures of different kinds',
    ],
    [
      'a constant that is no number',
      'const words = { a: "b" } as const; export function f(): string { return words.a; }',
      'words.a is no number',
    ],
    ['a function without a type', 'export function f(a: number) { return a; }', 'f in'],
  ])('%s', (_, text, message) => {
    expect(saidTo(text)).toContain(message);
  });
});
