/** What the limits of the point of connection compare: voltage change, flicker, interharmonics. */
import type { Limit } from '../../limits/limit.ts';
import type { Grid, GridFeeder } from '../judge/report.ts';
import { notShown, type Reading, unsettled } from '../read/reading.ts';
import { type Case, repeated, windowLength_s, worst } from '../record/case.ts';
import { shareOf } from '../record/spans.ts';
import { crowdWords } from './cabinets.ts';
import { tenMinutes_s, twoHours_s } from './flicker-of-power.ts';

type ChangeField = 'change_max' | 'change_steady' | 'change_kept';

/** A change of the standard takes up to 10 s: a shorter window of a load that does not repeat shows no less. */
const change_s = 10;

export function readChange(c: Case, grid: Grid, field: ChangeField, limit: Limit): Reading {
  const most = worstFeeder(grid, (feeder) => feeder[`${field}_ratio`]);
  if (most === null) return notShown('no feeder carried power for long enough in the window');
  const reading = {
    value: most.value,
    node: most.feeder.feeder,
    time_s: most.feeder[`${field}_s`],
    duration_s: limit.stay_s,
    share_seen: presentShare(c),
    reason: because(c, most.feeder),
  };
  if (repeated(c) !== null || windowLength_s(c) >= change_s) return reading;
  return unsettled(reading, `requires ${change_s} s; the window is ${window_s(c)} s`, 'worse');
}

/** Judged where the window holds ten minutes with AC, or the cycle of a load that repeats. */
export function readShortFlicker(c: Case, grid: Grid): Reading {
  const most = worstFeeder(grid, (feeder) => feeder.pst);
  if (most === null)
    return notShown(`needs ten minutes with AC; the window is ${window_s(c)} s${notRepeated(c)}`);
  const { feeder, value } = most;
  const of = feeder.pst_of === 'measured' ? '' : ', from the cycle repeated for ten minutes';
  return {
    value,
    node: feeder.feeder,
    duration_s: tenMinutes_s,
    share_seen: presentShare(c),
    reason: `${because(c, feeder)}${of}`,
  };
}

export function readLongFlicker(c: Case, grid: Grid): Reading {
  const most = worstFeeder(grid, (feeder) => feeder.plt);
  if (most === null)
    return notShown(`needs two hours with AC; the window is ${window_s(c)} s${notRepeated(c)}`);
  const { feeder, value } = most;
  const of = feeder.pst_of === 'measured' ? '' : ', from the cycle repeated for two hours';
  return {
    value,
    node: feeder.feeder,
    duration_s: twoHours_s,
    share_seen: presentShare(c),
    reason: `${because(c, feeder)}${of}`,
  };
}

function notRepeated(c: Case): string {
  return typeof c.cycle === 'string' ? `; ${c.cycle}` : '';
}

function presentShare(c: Case): number {
  return 1 - shareOf(c.result.window, [...c.applies.lost, ...c.applies.walkIn]);
}

/** The largest interharmonic group of the line current over its fundamental. */
export function readInterharmonics(grid: Grid): Reading {
  const found = grid.feeders.flatMap((feeder) => {
    const rows = feeder.groups?.rows ?? [];
    const fundamental = rows[1]?.subgroup_A ?? 0;
    if (!(fundamental > 0)) return [];
    return rows.map(({ order, between_A }) => ({ feeder, order, ratio: between_A / fundamental }));
  });
  const most = worst(found, (row) => row.ratio);
  if (most === null) return notShown('no feeder offers a window of 10 cycles at 50 Hz or 12 at 60 Hz');
  const { line_Hz, feeder } = most.feeder;
  const between = `between ${most.order * line_Hz} and ${(most.order + 1) * line_Hz} Hz`;
  return { value: most.ratio, node: feeder, reason: `${between}, side bands of the moving power alone` };
}

function worstFeeder(
  grid: Grid,
  read: (feeder: GridFeeder) => number | null,
): { readonly feeder: GridFeeder; readonly value: number } | null {
  const found = grid.feeders.flatMap((feeder) => {
    const value = read(feeder);
    return value === null ? [] : [{ feeder, value }];
  });
  return worst(found, ({ value }) => value);
}

/** The supply that it was worked out for. */
function because(c: Case, { short_circuit_power_VA }: GridFeeder): string {
  const supply = `on a supply of ${Number((short_circuit_power_VA / 1e6).toPrecision(4))} MVA`;
  const crowd = crowdWords(c.scenario);
  return crowd === null ? supply : `${supply}, ${crowd}`;
}

function window_s(c: Case): number {
  return Number((c.result.window.to_s - c.result.window.from_s).toPrecision(4));
}
