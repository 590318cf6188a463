/**
 * Functions of a kernel linked to one memory: the same bits as the function for every memory, wherever the structure stands
 * that has several places; a memory that is laid out otherwise is refused. Tolerance: none.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { type CompiledKernel, compileKernel } from '../../scripts/kernel/compile.ts';
import { packed } from '../../scripts/kernel/linking/template.ts';
import { wasm } from '../../src/base/wasm.ts';
import { SharedMemory } from '../../src/engine/fast/shared-memory.ts';
import { Template } from '../../src/engine/fast/template.ts';
import { Home, Part, turn } from './linking-fixture.ts';

type Turn = (home: number, part: number, q: number) => number;

let made: CompiledKernel;
let template: Template;
beforeAll(async () => {
  made = await compileKernel('tests/kernel/linking-fixture.ts');
  template = new Template(packed(made.templates.turn!));
});

/** A memory with a home and parts of it, and the function over it as it is for every memory and as it is linked. */
function laidOut(count: number, before: number) {
  const shared = new SharedMemory(wasm!, made.layouts, 65_536);
  shared.column(before);
  const home = new Home(count);
  const parts = Array.from({ length: 4 }, () => new Part(home.inner));
  const at = shared.place(home, 'Home');
  const places = parts.map((part) => shared.place(part, 'Part'));
  const numbers = template.numbers(shared.words, [at, places[1]!], [at, places[2]!])!;
  const imports = { env: { memory: shared.memory } };
  const functionOf = (bytes: Uint8Array): Turn =>
    (new wasm!.Instance(new wasm!.Module(bytes), imports).exports as { turn: Turn }).turn;
  return {
    shared,
    home,
    parts,
    at,
    places,
    numbers,
    every: functionOf(made.bytes),
    linked: functionOf(template.filled(numbers)!),
  };
}

describe('a linked function', () => {
  it.each([
    [1, 0],
    [2, 1],
    [5, 3],
    [8, 1000],
  ])('gives the same bits over %i units, %i numbers into the memory', (count, before) => {
    const [one, other] = [laidOut(count, before), laidOut(count, before)];
    const plain = new Home(count);
    const plainParts = one.parts.map(() => new Part(plain.inner));
    for (let round = 0; round < 20; round++) {
      const k = round % 4;
      const q = Math.sin(round);
      const expected = turn(plain, plainParts[k]!, q);
      expect(one.linked(one.at, one.places[k]!, q)).toBe(expected);
      expect(other.every(other.at, other.places[k]!, q)).toBe(expected);
      expect([...one.home.v, ...one.parts[k]!.own]).toEqual([...plain.v, ...plainParts[k]!.own]);
      expect(one.shared.words.every((word, at) => word === other.shared.words[at])).toBe(true);
    }
  });

  it('fetches no address: what the memory gives stands in its code', () => {
    const { at, places, linked, shared, home } = laidOut(5, 0);
    const before = linked(at, places[0]!, 0.2);
    // Where a home's fields stand there is nothing any more.
    shared.words.fill(0, at >> 2, home.v.byteOffset >> 2);
    expect(Number.isFinite(before) && Number.isFinite(linked(at, places[0]!, 0.2))).toBe(true);
    expect(home.v.some((v) => v !== 0)).toBe(true);
  });

  it('is another for another memory', () => {
    const [a, b] = [laidOut(5, 0), laidOut(5, 2)];
    expect(template.filled(a.numbers)).not.toEqual(template.filled(b.numbers));
    expect(template.filled(a.numbers)).toEqual(template.filled(laidOut(5, 0).numbers));
  });
});

describe('a structure that is laid out otherwise', () => {
  it('is told from those that a function was linked to', () => {
    const { shared, at, places, numbers } = laidOut(5, 0);
    for (const place of places) expect(template.holds(numbers, shared.words, [at, place], place)).toBe(true);
    const stranger = shared.place(new Part(new Home(5).inner), 'Part');
    expect(template.holds(numbers, shared.words, [at, stranger], stranger)).toBe(false);
  });

  it('gives no numbers', () => {
    const { shared, at, places } = laidOut(5, 0);
    const [stranger, larger] = [5, 6].map((count) => shared.place(new Part(new Home(count).inner), 'Part'));
    expect(template.numbers(shared.words, [at, places[1]!], [at, stranger!])).toBe(null);
    expect(template.numbers(shared.words, [at, places[1]!], [at, larger!])).toBe(null);
  });
});
