import { formatQuantity } from '../../base/quantity.ts';
import type { Series } from '../../samples/series.ts';
import type { LoadSpec } from '../../scenario/scenario.ts';
import type { RecordedLoad } from './recorded-load.ts';
import { covers, longestHold_s, peakWithin, playableSpan } from './stretch.ts';
import { swingWithin } from './swing-within.ts';

/** Within this a load changes faster than trays let the AC side follow [s]. */
const swing_s = 1;

/** Changes within this of each other are the same. */
const sameWithin = 0.02;

/** What a run plays of a recording, in the recording's own seconds and watts. */
export interface Played {
  readonly from_s: number;
  readonly to_s: number;
  /** Highest power in it. */
  readonly peak_W: number;
  /** Largest change within a second, of the stretch and of the whole recording [W]. */
  readonly swing_W: number;
  readonly fileSwing_W: number;
  /** Highest power of the whole recording, and when. */
  readonly filePeak_W: number;
  readonly filePeakAt_s: number;
  /** A start from which a run of this length plays that peak, if possible in its middle. */
  readonly betterFrom_s: number;
}

/** The stretch that a run of `duration_s` plays; null where it lies outside the recording, which is refused later. */
export function playedOf(
  load: RecordedLoad,
  spec: Pick<Extract<LoadSpec, { kind: 'recorded' }>, 'from_s' | 'to_s' | 'reading'>,
  duration_s: number,
): Played | null {
  const { from_s } = spec;
  // Turned round by offsets, every part of the stretch is played by some sled.
  const whole = spec.reading.coincidence === 'spread';
  const to_s = whole ? spec.to_s : Math.min(spec.to_s, from_s + duration_s);
  const hold_s = longestHold_s(1 / load.statement.rate_median_Hz);
  if (!(from_s < to_s) || !covers(load.total, from_s, to_s, hold_s)) return null;
  const at = highest(load.total);
  const span = playableSpan(load);
  const latest_s = Math.max(span.from_s, span.to_s - duration_s);
  const middle_s = load.total.time_s[at]! - duration_s / 2;
  return {
    from_s,
    to_s,
    peak_W: peakWithin(load.total, from_s, to_s),
    swing_W: swingWithin(load.total, from_s, to_s, swing_s),
    fileSwing_W: swingWithin(load.total, span.from_s, span.to_s, swing_s),
    filePeak_W: load.total.power_W[at]!,
    filePeakAt_s: load.total.time_s[at]!,
    betterFrom_s: Math.floor(10 * Math.min(latest_s, Math.max(span.from_s, middle_s))) / 10,
  };
}

/** Says which stretch is played, and the peak that it misses where it does. `moves` names what moves the start. */
export function playedSentences(played: Played, file: string, duration_s: number, moves: string): string[] {
  const sentence = `Plays ${file} from ${time(played.from_s)} to ${time(played.to_s)} of its ${time(duration_s)}; ${moves} moves the start.`;
  if (missesPeak(played)) return [sentence, missedPeak(played, moves)];
  return missesSwing(played) ? [sentence, missedSwing(played)] : [sentence];
}

/** The recording changes more within a second than the stretch does. */
export function missesSwing({ swing_W, fileSwing_W }: Played): boolean {
  return swing_W < fileSwing_W * (1 - sameWithin);
}

export function missedSwing({ swing_W, fileSwing_W }: Played): string {
  return `The stretch is a calm one: it changes by ${power(swing_W)} within a second, the recording by ${power(fileSwing_W)}.`;
}

export function missesPeak({ peak_W, filePeak_W }: Played): boolean {
  return peak_W < filePeak_W;
}

export function missedPeak(played: Played, moves: string): string {
  return `The stretch misses the recording's peak: it reaches ${power(played.peak_W)}, the recording ${power(played.filePeak_W)} at ${time(played.filePeakAt_s)} (${moves} "${time(played.betterFrom_s)}" plays it).`;
}

function highest({ power_W }: Series): number {
  let at = 0;
  for (let i = 1; i < power_W.length; i++) if (power_W[i]! > power_W[at]!) at = i;
  return at;
}

function time(value_s: number): string {
  return `${Number(value_s.toFixed(3))} s`;
}

function power(value_W: number): string {
  return formatQuantity(value_W, 'power', 4);
}
