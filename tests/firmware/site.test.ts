/**
 * Firmware reaches devices by name. The linter lets it import ports alone; this holds that no firmware file reads or
 * writes a state or a node voltage by its place in the vectors.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const folder = 'src/firmware';

/** A member x or v, the two taken apart, the offset of a kind, the nodes of its units. */
const byPlace = /\.[xv]\b|\{ x\b|\bv \}|\.offset \+|\.node\b/;

it.each([
  ['plant.x[intakes.offset + k]!', true],
  ['const { x } = this.plant;', true],
  ['private sample(out: Float64Array, { x, v }: Plant): void {', true],
  ['v1[this.sleds.node[k]!]!', true],
  ['const ramp = intakes.offset + 3 * n;', true],
  ['return this.asks(plant.x);', true],
  ['const bulk_V = intakes.bulk_V(k, end);', false],
  ['const v = sleds.input_V(k);', false],
])('%s is by place: %s', (line, is) => {
  expect(byPlace.test(line)).toBe(is);
});

it('no firmware file reads or writes a state or a node voltage by its place', () => {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.ts'));
  expect(files.length).toBeGreaterThan(30);
  const found = files.flatMap((file) =>
    readFileSync(join(folder, file), 'utf8')
      .split('\n')
      .flatMap((line, n) => (byPlace.test(line) ? [`${file}:${n + 1} ${line.trim()}`] : [])),
  );
  expect(found).toEqual([]);
});
