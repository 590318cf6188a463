/** Every key is in the reference, whole: unit, range, default and meaning. */
import { describe, expect, it } from 'vitest';
import { readTextFile } from '../../src/disk/read-file.ts';
import { readScenario } from '../../src/scenario/read.ts';
import { quantity } from '../../src/scenario/text/field.ts';
import { explained } from '../../src/schema/found-keys.ts';
import { type Key, keys } from '../../src/schema/keys.ts';
import { lackingOf } from '../../src/schema/lacking.ts';
import { studyKeys, studySectionKeys, studyWordKeys } from '../../src/studies/written/read-study.ts';

const all = Object.values(keys).flat();

describe('the reference of keys', () => {
  it('lacks nothing of any key', () => {
    const lacking = all.flatMap((key) => lackingOf(key).map((what) => `${key.path}: ${what}`));
    expect(lacking).toEqual([]);
    expect(all.length).toBeGreaterThan(300);
  });

  it('has every key once', () => {
    const paths = all.map(({ path }) => path);
    expect(paths.filter((path, k) => paths.indexOf(path) < k)).toEqual([]);
  });

  it('has every value of a cabinet that a change may name', () => {
    const { cells } = readScenario('scenarios/pulse-train.yaml', { files: readTextFile });
    const units = [...cells.keys()].filter((path) =>
      /^(feeders|shelves|trays|banks|batteries|sleds|bars|firmware)\./.test(path),
    );
    expect(units.filter((path) => explained(path, []).keys.length === 0)).toEqual([]);
    expect(units.length).toBeGreaterThan(500);
  });

  it('has every key of a study', () => {
    const studies = [
      ...studyKeys,
      ...Object.values(studySectionKeys).flat(),
      ...Object.values(studyWordKeys).flat(),
    ];
    expect([...new Set(studies)].filter((key) => !all.some(({ path }) => path === `study.${key}`))).toEqual(
      [],
    );
    expect(explained('objectives', []).keys[0]?.means).toContain('rack_units');
  });

  const good: Key = {
    path: 'trays.any',
    field: quantity({ dimension: 'power', symbol: 'P', means: 'power of any kind', min: 0, max: 10 }),
    fallback: 1,
  };
  const spec = { dimension: 'power', symbol: 'P', means: 'power of any kind', min: 0, max: 10 } as const;
  it.each<[string, Key]>([
    ['meaning', { ...good, field: quantity({ ...spec, means: '' }) }],
    ['meaning', { ...good, field: { kind: 'flag', means: ' ' }, fallback: true }],
    ['unit', { ...good, field: quantity({ ...spec, dimension: 'furlong' as never }) }],
    ['range', { ...good, field: quantity({ ...spec, max: Number.POSITIVE_INFINITY }) }],
    ['range', { ...good, field: quantity({ ...spec, min: 10 }), fallback: null }],
    ['range', { ...good, field: quantity({ ...spec, usual: [2, 20] }) }],
    ['range', { ...good, field: { kind: 'choice', of: [], means: 'one of none' }, fallback: null }],
    ['default', { ...good, fallback: 11 }],
    ['default', { ...good, fallback: 'two' }],
    ['default', { ...good, field: { kind: 'choice', of: ['a', 'b'], means: 'one of two' }, fallback: 'c' }],
  ])('misses the %s of a key', (what, key) => {
    expect(lackingOf(good)).toEqual([]);
    expect(lackingOf(key)).toContain(what);
  });
});
