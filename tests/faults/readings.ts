/** What a run under faults is held to, in the words of the trade's list. */
import { expect } from 'vitest';
import { busOf, countOf } from '../engine/runs.ts';
import { type Faulted, rangeOf } from './fault-runs.ts';

/** No battery shelf starts. */
export const asleep = ({ result }: Faulted): void => expect(countOf(result, 'battery-start')).toBe(0);
/** No sled cuts off. */
export const lit = ({ result }: Faulted): void => expect(countOf(result, 'sled-cut-off')).toBe(0);
export const above = ({ result }: Faulted, bus_V: number): void =>
  expect(busOf(result).min).toBeGreaterThan(bus_V);
export const near = (value: number, wanted: number, within: number): void =>
  expect(Math.abs(value - wanted)).toBeLessThan(within);
/** When the log first reports this kind [s]; NaN where it never does. */
export const said = ({ result }: Faulted, kind: string): number =>
  result.log.find(({ what }) => what === kind)?.time_s ?? Number.NaN;
export const ac_W = (run: Faulted): { readonly min: number; readonly max: number } =>
  rangeOf(run, 'total.ac_power_W');
export const swing = (run: Faulted, channel: string): number => {
  const { min, max } = rangeOf(run, channel);
  return max - min;
};
