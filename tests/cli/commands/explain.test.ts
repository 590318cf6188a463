import { describe, expect, it } from 'vitest';
import { quantities } from '../../../src/scenario/limit-quantities.ts';
import { eventKinds } from '../../../src/scenario/occurrences.ts';
import { explained, nearestKeys } from '../../../src/schema/found-keys.ts';
import { keyWords } from '../../../src/schema/key-words.ts';
import { keys } from '../../../src/schema/keys.ts';
import { shippedLimits } from '../../../src/shipped/shipped-limits.ts';
import { criteria } from '../../../src/studies/gains/accept.ts';
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
    expect(explained('capacitanse', limits)).toEqual({
      ...{ keys: [], events: [], quantities: [], criteria: [], limits: [] },
    });
    expect(nearestKeys('capacitanse', limits)).toContain('capacitance');
  });

  it('names what a specification may name, all of it and each with the limits that compare it', () => {
    const { quantities: all, keys: file } = explained('limits', limits);
    expect(all.map(({ name }) => name)).toEqual(Object.keys(quantities));
    expect(file.map(({ path }) => path)).toContain('limits');
    for (const { name, compared_as } of all) {
      expect([name, compared_as.length > 0]).toEqual([name, true]);
      expect(explained(name, limits)).toMatchObject({ quantities: [{ name }] });
    }
    const { quantities: one, limits: rows } = explained('bus-stay', limits);
    expect(one).toMatchObject([
      { bound: 'either, <= or >=', unit: '1, %, ratio or 50.25 V', stay: 'required' },
    ]);
    expect(rows.map(({ id }) => id)).toContain('bus-floor');
    expect(nearestKeys('bus-stey', limits)).toContain('bus-stay');
  });

  it('knows the criteria of a gains map', () => {
    for (const { name } of Object.values(criteria))
      expect(explained(name, limits).criteria.map((one) => one.name)).toEqual([name]);
    expect(explained('settling', limits).criteria[0]?.usual).toBe('at most 0.5 s');
    expect(nearestKeys('setling', limits)).toContain('settling');
  });

  it.each(eventKinds)('shows how %s is written, in the list and as a change', (kind) => {
    const { items, changes } = explained(kind, limits).events[0]!.written;
    const file = 'scenarios/pulse-train.yaml';
    const asList = readShipped(file, [[file, 'load:', `events:\n  ${items.join('\n  ')}\n\nload:`]]);
    const asChange = readShipped(file, [], {
      changes: changes.map((value) => ({ path: 'events.add', value })),
    });
    expect(asList.scenario.events).toContainEqual(expect.objectContaining({ what: kind }));
    expect(asChange.scenario.events).toEqual(asList.scenario.events);
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
