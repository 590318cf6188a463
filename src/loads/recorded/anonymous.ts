/**
 * A recording without what names its owner: channels numbered in an order drawn from a seed, no date, and, where asked
 * for, powers scaled to a peak. Levels against each other, periods and length stay: they are what the recording is
 * for, and may still tell a workload to those who know it.
 */
import { counted } from '../../base/counted.ts';
import { Random } from '../random.ts';
import type { RecordedLoad } from './recorded-load.ts';

export interface Anonymous {
  readonly load: RecordedLoad;
  /** What was changed, one sentence each. */
  readonly changes: readonly string[];
}

/** `peak_W`: what the highest power of the total becomes [W]; null keeps the powers. */
export function anonymous(load: RecordedLoad, seed: number, peak_W: number | null): Anonymous {
  const random = new Random(seed);
  const drawn = load.channels
    .map((channel, k) => ({ channel, bridged: load.bridged[k]!, lot: random.uniform() }))
    .sort((a, b) => a.lot - b.lot);
  const highest_W = load.statement.total.max_W;
  const scale = peak_W === null ? 1 : peak_W / highest_W;
  const channels = drawn.map(({ channel: { series } }, k) => ({
    name: String(k + 1),
    series: { time_s: series.time_s, power_W: scaled(series.power_W, scale) },
  }));
  const n = channels.length;
  return {
    load: {
      gaps: load.gaps,
      bridged: drawn.map(({ bridged }) => bridged),
      statement: { ...load.statement, start: null, warnings: nameless(load.statement.warnings) },
      channels,
      total: { time_s: load.total.time_s, power_W: scaled(load.total.power_W, scale) },
    },
    changes: [
      `${n} channel${n === 1 ? '' : 's'} renamed${n === 1 ? '' : ` 1 to ${n} in an order drawn from seed ${seed}`}`,
      load.statement.start === null
        ? 'no start was stated'
        : 'start left out, time counts from the first stamp',
      'comments, markers and other columns left out',
      peak_W === null ? 'powers kept' : `powers times ${Number(scale.toPrecision(6))}`,
    ],
  };
}

/** Warnings name channels and quote the file: that there were some must stay known. */
function nameless(warnings: readonly string[]): string[] {
  if (warnings.length === 0) return [];
  return [
    `Of the recording that this was made of ${counted(warnings.length, 'warning')} ${warnings.length === 1 ? 'was' : 'were'} given, left out here with its names.`,
  ];
}

function scaled(power_W: Float64Array, scale: number): Float64Array {
  return scale === 1 ? power_W : power_W.map((p) => p * scale);
}
