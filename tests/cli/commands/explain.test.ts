import { describe, expect, it } from 'vitest';
import { explained, nearestKeys } from '../../../src/schema/found-keys.ts';
import { keyWords } from '../../../src/schema/key-words.ts';
import { keys } from '../../../src/schema/keys.ts';
import { shippedLimits } from '../../../src/shipped/shipped-limits.ts';
import { readShipped } from '../../scenario/shipped.ts';

const limits = shippedLimits();

describe('explained()', () => {
  it('finds the key of one unit, a last word in every place, an event with its keys, a limit', () => {
    expect(explained('trays.T4.capacitance', limits).keys.map(({ path }) => path)).toEqual([
      'trays.capacitance',
    ]);
    expect(explained('latency', limits).keys.map(({ path }) => path)).toContain('firmware.share.latency');
    const { events, keys: further } = explained('ac-sag', limits);
    expect(events).toHaveLength(1);
    expect(further.map(({ path }) => path)).toEqual(['events.ac-sag.to', 'events.ac-sag.for']);
    expect(explained('limits.ac-ramp-100ms.normal', limits).limits.map(({ id }) => id)).toEqual([
      'ac-ramp-100ms',
    ]);
  });

  it('says of a text what it may be, but of words that are free', () => {
    const free = new Set(['title', 'about', 'why', 'citation', 'study.title', 'study.about']);
    const texts = Object.values(keys)
      .flat()
      .filter(({ field }) => field.kind === 'text');
    const open = texts.map(keyWords).filter(({ may_be }) => may_be === 'a text');
    expect(new Set(open.map(({ path }) => path))).toEqual(free);
    expect(explained('trays.T6.model', limits).keys).toMatchObject([
      { path: 'trays.model', may_be: expect.stringMatching(/^the name of a model file/) },
    ]);
  });

  it('says between what a ramp of the AC power is taken: adjacent means and both ends of a window differ', () => {
    const [limit] = explained('ac-ramp-100ms', limits).limits;
    expect(limit?.source).toMatch(/means over adjacent 100 ms, .+ not of values at both ends/);
  });

  it('finds nothing for a word that names nothing, and the nearest then', () => {
    expect(explained('capacitanse', limits)).toEqual({ keys: [], events: [], limits: [] });
    expect(nearestKeys('capacitanse', limits)).toContain('capacitance');
  });

  it('knows every path that a change of the reference cabinet may name', () => {
    const known = new Set(Object.values(keys).flatMap((list) => list.map(({ path }) => path)));
    const unknown = readShipped('scenarios/pulse-train.yaml').paths.filter((path) => {
      const { keys: found, limits: rows } = explained(path, limits);
      return found.length === 0 && rows.length === 0 && !known.has(path);
    });
    expect(unknown).toEqual([]);
  });
});
