/** A side of a comparison as its page carries it: what is compared, within the steps of a picture. */
import { expect, it } from 'vitest';
import { packSide, unpackSide } from '../../../src/studies/compare/side.ts';
import { syntheticRun } from '../../fixtures/run.ts';

it('keeps the report, the log and the extremes of what is compared, and nothing else of the wake', () => {
  const run = syntheticRun(3);
  const { report, result, recording } = unpackSide(packSide(run));
  expect(report).toEqual(run.report);
  expect(result.log).toEqual(run.result.log);
  expect(recording.closeUps).toEqual([]);
  const kinds = new Set(recording.channels.map(({ kind }) => kind));
  expect([...kinds].sort()).toEqual(['node-voltage', 'total', 'tray-charge']);
  const extremes = (columns: readonly Float32Array[]): readonly [number, number] => {
    const values = columns.flatMap((column) => [...column]);
    return [Math.min(...values), Math.max(...values)];
  };
  const places = run.result.recording.channels.flatMap(({ kind }, c) => (kind === 'node-voltage' ? [c] : []));
  const [low] = extremes(places.map((c) => run.result.recording.min[c]!));
  const [, high] = extremes(places.map((c) => run.result.recording.max[c]!));
  const carried = recording.channels.flatMap(({ kind }, c) => (kind === 'node-voltage' ? [c] : []));
  // A picture holds 4095 steps over the range of a kind, rounded outwards.
  const step = (high - low) / 4095;
  expect(Math.abs(extremes(carried.map((c) => recording.min[c]!))[0] - low)).toBeLessThan(2 * step);
  expect(Math.abs(extremes(carried.map((c) => recording.max[c]!))[1] - high)).toBeLessThan(2 * step);
});
