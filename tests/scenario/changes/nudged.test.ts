import { expect, test } from 'vitest';
import { simulate } from '../../../src/engine/simulate.ts';
import { variationsOf } from '../../../src/engine/variations.ts';
import { makeDemand } from '../../../src/loads/make-demand.ts';
import { assemble } from '../../../src/network/network.ts';
import { nudged } from '../../../src/scenario/changes/nudged.ts';
import type { Scenario } from '../../../src/scenario/scenario.ts';
import { shippedWith } from '../../engine/runs.ts';

const idle = shippedWith('idle', { duration: '1 s' });
const quantum_V = idle.firmware.share.trim_quantum_V;
const setPoints = ({ shelves }: Scenario): number[] => shelves.map(({ values }) => values.set_point_V);
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

test('neighbouring set points move by half a trim quantum, up and down, so that their mean stays', () => {
  const up = setPoints(nudged(idle, 'up')!);
  const down = setPoints(nudged(idle, 'down')!);
  setPoints(idle).forEach((own, k) => {
    expect(up[k]! - own).toBeCloseTo((k % 2 === 0 ? 0.5 : -0.5) * quantum_V, 12);
    expect(down[k]! - own).toBeCloseTo((k % 2 === 0 ? -0.5 : 0.5) * quantum_V, 12);
  });
  expect(sum(up)).toBeCloseTo(sum(setPoints(idle)), 12);
});

test('trims that are not quantised have nothing to nudge: two finer steps are all', () => {
  const smooth = shippedWith('idle', { 'firmware.share.trim_quantum': '0 V' });
  expect(nudged(smooth, 'up')).toBeNull();
  expect(variationsOf(smooth).map(({ refine }) => refine)).toEqual([2, 4]);
  expect(variationsOf(idle).map(({ refine }) => refine)).toEqual([2, 4, 1, 1]);
});

test('a nudge makes trims round the other way: some shelf moves by more than the nudge itself', () => {
  const currents = (scenario: Scenario): number[] => {
    const { recording } = simulate(assemble(scenario), makeDemand(scenario), {
      levels_V: Float64Array.of(48),
    });
    const last = recording.bucketCount - 1;
    return recording.channels.flatMap(({ kind }, c) =>
      kind === 'shelf-current' ? [recording.max[c]![last]!] : [],
    );
  };
  const own = currents(idle);
  const moves = (['up', 'down'] as const).flatMap((first) =>
    currents(nudged(idle, first)!).map((current, k) => Math.abs(current - own[k]!)),
  );
  const { values } = idle.shelves[0]!;
  // If all trims rounded as before, no shelf would move by more than half a quantum over its droop.
  expect(Math.max(...moves)).toBeGreaterThan((0.5 * quantum_V) / values.droop_ohm);
});
