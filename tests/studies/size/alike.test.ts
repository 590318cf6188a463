/** Differences below what the engine can tell decide nothing. */
import { describe, expect, it } from 'vitest';
import type { Tried } from '../../../src/studies/search/least-passing.ts';
import { alikeWith, roomiest } from '../../../src/studies/size/choose.ts';
import { pullLevers } from '../../../src/studies/size/levers.ts';
import { sizeSentence } from '../../../src/studies/size/paper.ts';
import { roomOf, tightest } from '../../../src/studies/trials/run-outcome.ts';
import { passed } from '../../fixtures/outcome.ts';
import { changes, contextHere, sized, studyOf } from '../here.ts';

const finding = (verdict: 'pass' | 'fail', headroom_ratio: number) =>
  ({
    id: 'x',
    column: 'normal',
    verdict,
    value: 1,
    limit: 1,
    unit: '',
    headroom_ratio,
    node: null,
    time_s: 0,
  }) as const;

describe('a value on its limit', () => {
  it('is kept or exceeded as its verdict says, whatever the last digits', () => {
    expect(roomOf({ verdict: 'pass', headroom_ratio: -1e-7 })).toBe(0);
    expect(roomOf({ verdict: 'fail', headroom_ratio: 1e-9 })).toBeLessThan(0);
    expect(tightest({ ...passed, findings: [finding('pass', -1e-7), finding('pass', 0.5)] })).toBe(0);
  });
});

describe('levers', () => {
  it('that move the headroom by less than the engine can tell change nothing, and stand as they were asked for', async () => {
    const rooms = [-0.01, -0.01 + 1e-7, -0.01 + 2e-7, 0.2, -0.3];
    const levers = ['a', 'b', 'c', 'd'].map((name, k) => ({
      name,
      changes: changes(`trays.count = ${k + 1}`),
      fits: [true],
    }));
    const situation = { name: '', scenario: 'scenarios/single-step.yaml', before: [], after: [] };
    let asked = 0;
    const pulled = await pullLevers(
      { levers, situations: [situation] },
      { values: {}, changes: [] },
      async (trials) =>
        trials.map(() => {
          const room = rooms[asked++]!;
          return {
            ...passed,
            verdict: room < 0 ? 'fail' : 'pass',
            findings: [finding(room < 0 ? 'fail' : 'pass', room)],
          };
        }),
    );
    expect(pulled.map(({ name, effect }) => [name, effect])).toEqual([
      ['c', 'helps'],
      ['a', 'changes nothing'],
      ['b', 'changes nothing'],
      ['d', 'makes it worse'],
    ]);
  });
});

describe('places', () => {
  const at = (headroom: number): Tried => ({ passes: headroom >= 0, headrooms: new Map([['x', headroom]]) });
  const found = (...rooms: readonly number[]) =>
    roomiest({ least: 0, tried: new Map(rooms.map((room, k) => [k, at(room)])), reversed: [], whole: true });
  const values = ['p', 'q', 'r'];

  it('that are alike are named together, the first of them taken', () => {
    const alike = found(0.2, 0.2 + 1e-6, 0.1);
    expect(alike.least).toBe(0);
    expect(alikeWith(alike, { ordered: false, values, path: '', changes: [] })).toEqual(['q']);
    const clear = found(0.2, 0.3, 0.1);
    expect(clear.least).toBe(1);
    expect(alikeWith(clear, { ordered: false, values, path: '', changes: [] })).toEqual([]);
  });

  it('are so in the answer of a study', async () => {
    const study = studyOf('size', 'single-step', {
      changes: changes('load.at = 0.1 s', 'duration = 0.61 s'),
      vary: [['start', 'settled']],
    });
    const report = await sized(study, contextHere());
    expect(report.alike).toEqual([]);
    expect(sizeSentence({ ...report, alike: ['elsewhere'] })).toContain(
      'is the first of 2 that are alike with the most headroom of those that pass (the others: elsewhere)',
    );
  });
});
