/** Stretches of steady operation, where ripple, tones and range are judged. */

import { type Reading, unsettled } from '../read/reading.ts';
import { type Case, repeated, streamOf, worst } from './case.ts';
import { once } from './once.ts';
import { shareOf, without } from './spans.ts';

export const acPower = 'total.ac_power_W';

/** A stretch of AC power in steady operation, cut to whole periods where the load has one. */
export interface SteadyStretch {
  readonly from_s: number;
  readonly samples: Float64Array;
  readonly rate_Hz: number;
  readonly wholePeriods: boolean;
  /** It stands for the load without end: however short, it is as long as a limit asks. */
  readonly endless: boolean;
}

export const steadyStretches: (c: Case) => readonly SteadyStretch[] = once((c) => {
  const stream = streamOf(c.result, acPower);
  if (stream === null) return [];
  const { rate_Hz } = stream;
  const cycle = repeated(c);
  const spans = cycle === null ? c.applies.steady : [...c.applies.steady, cycle.span];
  return spans.flatMap((span) => {
    const endless = span === cycle?.span;
    const first = Math.max(0, Math.ceil((span.from_s - stream.from_s) * rate_Hz - 1e-6));
    const end = Math.min(stream.samples.length, Math.floor((span.to_s - stream.from_s) * rate_Hz + 1e-6));
    let count = end - first;
    const periods = c.period_s === null ? 0 : Math.floor(count / (c.period_s * rate_Hz) + 1e-6);
    // To the nearest sample: a period that is no whole number of samples leaks by less than one sample's move.
    if (c.period_s !== null && periods > 0)
      count = Math.min(count, Math.round(periods * c.period_s * rate_Hz));
    if (count < 2) return [];
    const samples = stream.samples.subarray(first, first + count);
    const from_s = stream.from_s + first / rate_Hz;
    return [{ from_s, samples, rate_Hz, wholePeriods: endless || periods > 0, endless }];
  });
});

/** Part of the window that lies in steady operation. */
export function steadyShare(c: Case): number {
  return 1 - shareOf(c.result.window, without(c.result.window, c.applies.steady));
}

/** Less of the window than this settles nothing unless it lies after the last start or stop. */
const most_ratio = 0.5;

/**
 * A reading of steady operation in stretches of least_s or longer: unsettled where all of it lies before the last start
 * and is less than half the window.
 */
export function ofSteady(c: Case, least_s: number, reading: Reading): Reading {
  const share_seen = steadyShare(c);
  const seen = { ...reading, share_seen };
  const last = c.applies.starts.at(-1);
  if (last === undefined || share_seen >= most_ratio || repeated(c) !== null) return seen;
  const after = c.applies.steady.filter(({ from_s }) => from_s >= last.from_s);
  if (after.some(({ from_s, to_s }) => to_s - from_s >= least_s * (1 - 1e-9))) return seen;
  return unsettled(
    seen,
    `nothing was judged after the last start or stop, at ${round(last.from_s)} s`,
    'worse',
  );
}

/** What a reading was taken over, for its reason. */
export function judgedOver(stretch: SteadyStretch): string {
  const kind = stretch.endless
    ? 'repeated indefinitely'
    : stretch.wholePeriods
      ? 'whole periods'
      : 'a straight line removed';
  return `over ${round(stretch.samples.length / stretch.rate_Hz)} s from ${round(stretch.from_s)} s, ${kind}`;
}

/** How long a stretch the run offers, for why none is long enough. */
export function offered(c: Case): string {
  const longest = worst(c.applies.steady, (span) => span.to_s - span.from_s);
  const length_s = longest === null ? 0 : longest.to_s - longest.from_s;
  const clear = c.applies.starts.length === 0 ? '' : ', 10 s clear of every start, stop and event,';
  return `the longest stretch${clear} is ${round(length_s)} s`;
}

export function round(x: number): string {
  return String(Number(x.toPrecision(4)));
}
