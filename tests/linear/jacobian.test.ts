/** Slopes taken of the kinds that follow alone, against those of all kinds. */
import { expect, it } from 'vitest';
import type { Cabinet } from '../../src/engine/cabinet.ts';
import { Differences } from '../../src/linear/difference.ts';
import type { Entries } from '../../src/linear/entries.ts';
import { FollowersAt, flowOf, injectAll, type Point } from '../../src/linear/followers.ts';
import { differentiate } from '../../src/linear/jacobian.ts';
import { stateScales } from '../../src/linear/labels.ts';
import { restAt } from '../../src/linear/rest.ts';
import { shipped } from './scenario.ts';

/** A cabinet at rest, and all that its equations follow. */
function resting(name: string, ...changes: readonly string[]): { cabinet: Cabinet; point: Point } {
  const cabinet = restAt(shipped(name, ...changes), 200e3);
  const { network, stepper } = cabinet;
  return { cabinet, point: { network, x: stepper.x0, v: stepper.v0 } };
}

it.each<readonly [scenario: string, ...changes: string[]]>([
  ['single-step'],
  ['mixed-shelves'],
  ['line-sag'],
  ['tie-open'],
  ['own-share'],
  ['single-step', 'trays.slow_share=10 %', 'trays.slow_time=1.5 s'],
  ['single-step', 'banks.slow_share=10 %', 'banks.slow_time=1.5 s'],
])('slopes of %s are those of all kinds at once, to the bit', (name, ...changes) => {
  const { cabinet, point } = resting(name, ...changes);
  const { devices, stateCount, nodeCount } = cabinet.network;
  const scale = stateScales(cabinet.network);
  const { fx, fv, gx, gv } = differentiate(cabinet.network, point.x, point.v, scale);
  const column = (slopes: Entries, rows: number, j: number): Float64Array => {
    const out = new Float64Array(rows);
    slopes.eachIn(j, (i, slope) => {
      out[i] = slope;
    });
    return out;
  };
  const slopeOf = (
    value: Float64Array,
    j: number,
    size: number,
    evaluate: (out: Float64Array) => void,
    rows: number,
  ): Float64Array => {
    const out = new Float64Array(rows);
    new Differences(rows).over(value, j, size, evaluate, [...out.keys()], (i, slope) => {
      out[i] = slope;
    });
    return out;
  };
  for (const [value, ofStates, ofNodes] of [
    [point.x, fx, gx],
    [point.v, fv, gv],
  ] as const) {
    const width = value === point.x ? stateCount : nodeCount;
    for (let j = 0; j < width; j++) {
      const size = value === point.x ? scale[j]! : 1;
      const f = slopeOf(value, j, size, (out) => flowOf(out, devices, point), stateCount);
      const g = slopeOf(value, j, size, (out) => injectAll(out, point), nodeCount);
      expect(column(ofStates, stateCount, j)).toEqual(f);
      expect(column(ofNodes, nodeCount, j)).toEqual(g);
    }
  }
});

it('a kind that nothing of what is moved concerns is left out, and the point is where it was', () => {
  const { cabinet, point } = resting('single-step');
  const { devices } = cabinet.network;
  const before = [point.x.slice(), point.v.slice()];
  const kindsThatFollow = (kind: string): { kinds: string[]; isCurrentMoved: boolean } => {
    const { offset, count, states } = devices.find((device) => device.kind === kind)!;
    const end = offset + count * states.length;
    const { flow, nodes } = new FollowersAt(point).of(point.x, offset, end, () => 1e-3);
    return { kinds: flow.map((device) => device.kind), isCurrentMoved: nodes.length > 0 };
  };
  expect(kindsThatFollow('bar')).toEqual({ kinds: ['bar'], isCurrentMoved: true });
  expect(kindsThatFollow('stage')).toEqual({
    kinds: ['stage', 'intake', 'pack', 'sensor'],
    isCurrentMoved: true,
  });
  expect(kindsThatFollow('sensor')).toEqual({ kinds: ['sensor'], isCurrentMoved: false });
  expect([point.x, point.v]).toEqual(before);
});
