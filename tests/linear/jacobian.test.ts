/** Slopes taken of the kinds that follow alone, against those of all kinds. */
import { expect, it } from 'vitest';
import { Differences } from '../../src/linear/difference.ts';
import type { Entries } from '../../src/linear/entries.ts';
import { FollowersAt, flowOf, injectAll } from '../../src/linear/followers.ts';
import { differentiate } from '../../src/linear/jacobian.ts';
import { stateScales } from '../../src/linear/labels.ts';
import { restAt } from '../../src/linear/rest.ts';
import { shipped } from './scenario.ts';

const { network, stepper } = restAt(shipped('single-step'), 200e3);
const { devices, stateCount, nodeCount } = network;
const point = { network, x: stepper.x0, v: stepper.v0 };

it('slopes are those of all kinds at once, to the bit', () => {
  const scale = stateScales(network);
  const { fx, fv, gx, gv } = differentiate(network, point.x, point.v, scale);
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
