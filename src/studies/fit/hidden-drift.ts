/**
 * Drifts of a zero that no residual shows: along a slow curve a line in time is what a fitted value does, such as the
 * capacitance of a discharge. An interval counts on zeros that stand still; how little is enough to leave it is said. To first order.
 */
import type { Matrix } from 'ml-matrix';
import { unitOfChannel } from '../../measured/measured-unit.ts';
import type { MeasuredColumn } from '../../measured/measurement.ts';
import { accuracyOf, allowedBias } from '../../measured/sensor/accuracy.ts';
import { seldom } from '../../measured/whiteness.ts';
import { beyondFitted, followedBy } from './beyond-fitted.ts';
import { sumOf } from './residuals.ts';
import type { FoundValues } from './rests-on.ts';

export interface HiddenDrift {
  readonly channel: string;
  /** From the first reading to the last [the channel's unit]. */
  readonly by: number;
  /** The value that it moves out of its interval, the first to leave. */
  readonly path: string;
}

export interface DriftCase extends FoundValues {
  /** Of an independent residual. */
  readonly variance: number;
  readonly columns: readonly MeasuredColumn[];
  /** What is left of these columns beside the values found. */
  readonly leftOf: (columns: readonly MeasuredColumn[]) => Float64Array;
}

export function hiddenDrifts(of: DriftCase): HiddenDrift[] {
  const { columns, left, sensitivities, leftOf } = of;
  return columns.flatMap((column, c): HiddenDrift[] => {
    const most = farthest(column);
    if (most === 0) return [];
    const drifting = columns.map((one, k) => (k === c ? drifted(one, most) : one));
    const effect = leftOf(drifting).map((e, i) => e - left[i]!);
    const [first] = leaving(of, effect).sort((a, b) => a.share - b.share);
    if (first === undefined || first.share > hiddenShare(effect, sensitivities, of.variance)) return [];
    return [{ channel: column.channel, by: first.share * most, path: first.path }];
  });
}

/** A zero is anywhere within its class, and goes no farther than that. */
function farthest({ channel, sensor, values }: MeasuredColumn): number {
  const about = values.reduce((sum, value) => sum + value, 0) / values.length;
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return allowedBias(accuracyOf(unitOfChannel(channel), sensor), about, largest);
}

function drifted(column: MeasuredColumn, by: number): MeasuredColumn {
  const { time_s, values } = column;
  const [first_s, last_s] = [time_s[0]!, time_s.at(-1)!];
  return { ...column, values: values.map((m, i) => m + (by * (time_s[i]! - first_s)) / (last_s - first_s)) };
}

/** Of the drift, the share by which each value leaves its interval. */
function leaving({ adjusted, halfWidths, sensitivities }: FoundValues, effect: Float64Array) {
  const moves = followedBy(effect, sensitivities);
  return adjusted.flatMap(({ path }, j) => {
    const half = halfWidths[j] ?? null;
    return half === null || moves[j] === 0 ? [] : [{ path, share: half / Math.abs(moves[j]!) }];
  });
}

/** Of the drift, the share that what is left would not show; 1: all of it. */
function hiddenShare(effect: Float64Array, sensitivities: Matrix, variance: number): number {
  const shown = Math.sqrt(sumOf(beyondFitted(effect, sensitivities)) / variance);
  return shown > seldom ? seldom / shown : 1;
}
