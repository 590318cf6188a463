/** Limit cycles predicted of cabinets beside those of runs with the elements at work: one of each kind, as scripts/limit-cycles.ts. */
import { describe, expect, it } from 'vitest';
import { edgeSwing } from '../../../scripts/cycles/edge.ts';
import type { Swing } from '../../../scripts/cycles/fundamental.ts';
import { type CyclePoint, points, scenarioOf } from '../../../scripts/cycles/points.ts';
import { simulated } from '../../../scripts/cycles/simulated.ts';
import { restAt } from '../../../src/linear/rest.ts';
import { type LimitCycle, limitCyclesOf } from '../../../src/studies/response/cycles/limit-cycles.ts';
import { placesOf } from '../../../src/studies/response/places.ts';

function predicted(point: CyclePoint): LimitCycle {
  const scenario = scenarioOf(point);
  const cabinet = restAt(scenario, point.load_W);
  return limitCyclesOf(scenario, cabinet, placesOf(cabinet, [0], null)).find(
    ({ element }) => element === point.element,
  )!;
}

/** As long as tells a cycle: a quarter of a second of trims, 8 ms of a shelf, each after as much to come into it. */
function seenOf(point: CyclePoint): Swing | null {
  const run = { scenario: scenarioOf(point), ...point };
  if (point.element === 'trim dead band') return edgeSwing(run, 14);
  const half_s = point.shelves === 'two' ? 0.25 : 8e-3;
  return simulated({ ...run, length_s: 2 * half_s, from_s: half_s });
}

const of = (element: string): CyclePoint[] => points.filter((point) => point.element === element);
const [quantum, , coarse, held] = of('trim quantum');
const [slew, , stable] = of('slew limit');

describe('a limit cycle is within 15 % of that of a run', () => {
  it.each([
    ['trim quantum', 'cycle', quantum!],
    ['slew limit', 'cycle', slew!],
    ['voltage sensor quantum', 'cycle', of('voltage sensor quantum')[0]!],
    ['trim dead band', 'edge', of('trim dead band')[0]!],
  ] as const)('%s, %s', (_, kind, point) => {
    const found = predicted(point);
    const seen = seenOf(point)!;
    expect(found.kind).toBe(kind);
    expect(Math.abs(found.amplitude! / seen.amplitude - 1)).toBeLessThan(0.15);
    expect(Math.abs(found.frequency_Hz! / seen.frequency_Hz - 1)).toBeLessThan(0.15);
  });
});

describe('no prediction is given', () => {
  it('where the cycle spans few samples', () => {
    expect(predicted(coarse!).why).toContain('sampled too coarsely');
  });
  it('where the dead band holds the trims, and a run rests too', () => {
    expect(predicted(held!).why).toContain('it rests');
    expect(seenOf(held!)).toBeNull();
  });
  it('where the loop is stable up to its slew limit, and a run rests too', () => {
    expect(predicted(stable!)).toMatchObject({ kind: 'none', amplitude: null, why: 'no cycle balances' });
    expect(seenOf(stable!)).toBeNull();
  });
});
