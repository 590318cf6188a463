/** Samples that are no readings: at the end of a range, frozen, alone, repeated. Without them the rest stands for itself. */
import { numberText } from '../../../analysis/words/number-text.ts';
import { counted } from '../../../base/counted.ts';
import { columnSigns } from '../../../measured/column-signs.ts';
import { cutOffAt } from '../../../measured/cut-off.ts';
import { unitOfChannel } from '../../../measured/measured-unit.ts';
import { equalRuns, lengthOf } from '../../../samples/signs/equal-runs.ts';
import type { SignKind } from '../../../samples/signs/sign.ts';
import { clippedAt, clippedWords } from '../clipped.ts';
import { type Beside, type Hypothesis, withColumn } from './fault.ts';

/** A recording without more than this of a channel says nothing. */
const mostLeftOut = 0.6;

export function noReadings(beside: Beside): Hypothesis[] {
  return [
    ...clippedReadings(beside),
    ...frozenReadings(beside),
    ...signedReadings(beside),
    ...lonePeaks(beside),
  ];
}

function clippedReadings(beside: Beside): Hypothesis[] {
  return beside.columns.flatMap(({ channel, values }, c) => {
    const clipped = clippedAt(values, beside.simulated[c]!, beside.noise[c]!);
    if (clipped === null) return [];
    const side = clipped.end === 'largest' ? 1 : -1;
    return without(
      beside,
      c,
      clippedWords(clipped, unitOfChannel(channel)),
      (i) => side * (values[i]! - clipped.at) < 0,
    );
  });
}

/** So many equal samples in a row may be a sensor that stood still; whether they are, the model beside them says. */
const fewestFrozen = 10;

/** The longest such stretch: of a smooth channel the samples alone do not tell it from one that rests. */
function frozenReadings(beside: Beside): Hypothesis[] {
  return beside.columns.flatMap(({ values, time_s }, c) => {
    const [run] = equalRuns(values).longest;
    if (run === undefined || lengthOf(run) < fewestFrozen) return [];
    const words = `frozen, from ${numberText(time_s[run.from]!, 's')} to ${numberText(time_s[run.to]!, 's')} of the file`;
    return without(beside, c, words, (i) => i < run.from || i > run.to);
  });
}

/** Signs of samples; those of a whole channel say nothing of which to leave out. */
const ofSamples: Partial<Record<SignKind, string>> = {
  zeros: 'zero without a cause',
  clipped: 'cut off',
  spike: 'far outside of all others',
  repeated: 'repeated from earlier',
};

function signedReadings(beside: Beside): Hypothesis[] {
  return columnSigns(beside.columns).flatMap(({ kind, channel, from_s, to_s }) => {
    const c = beside.columns.findIndex((column) => column.channel === channel);
    const { time_s, values } = beside.columns[c]!;
    const seen = ofSamples[kind];
    if (seen === undefined) return [];
    const isSeen = (i: number): boolean => time_s[i]! >= from_s && time_s[i]! <= to_s;
    if (kind === 'spike' && [...values.keys()].some((i) => isSeen(i) && movesThere(beside, c, i))) return [];
    const ends = kind === 'clipped' ? cutOffAt(beside.columns[c]!) : [];
    const words = `${seen}, from ${numberText(from_s, 's')} to ${numberText(to_s, 's')} of the file`;
    // Between stretches at the end of a range there are readings.
    return without(beside, c, words, (i) => (ends.length > 0 ? !ends.includes(values[i]!) : !isSeen(i)));
  });
}

/** A peak is so many samples at most that stand out of what is before and behind, and out of the model, by so much noise. */
const [widest, leastPeak, mostPeaks] = [3, 8, 0.01] as const;

function lonePeaks(beside: Beside): Hypothesis[] {
  return beside.columns.flatMap(({ values, time_s }, c) => {
    const off = values.map((m, i) => m - beside.simulated[c]![i]!);
    const least = leastPeak * beside.noise[c]!;
    const peaks = [...values.keys()].filter((i) => standsOut(values, off, i, least));
    if (peaks.some((i) => movesThere(beside, c, i))) return [];
    if (peaks.length === 0 || peaks.length > Math.max(widest, mostPeaks * values.length)) return [];
    const at = peaks.slice(0, 3).map((i) => numberText(time_s[i]!, 's'));
    const words = `${counted(peaks.length, 'sample stands', 'samples stand')} alone, at ${at.join(', ')}${peaks.length > 3 ? ' …' : ''} of the file`;
    return without(beside, c, words, (i) => !peaks.includes(i));
  });
}

/** The model moves so much of what a sample is off by, from the sample before or to the next: that is an edge, read in another way. */
const movesWith = 0.25;

function movesThere({ columns, simulated }: Beside, c: number, i: number): boolean {
  const [shown, off] = [simulated[c]!, Math.abs(columns[c]!.values[i]! - simulated[c]![i]!)];
  return [i, i + 1].some(
    (k) => Math.abs((shown[k] ?? Number.NaN) - (shown[k - 1] ?? Number.NaN)) > movesWith * off,
  );
}

/** By more than `least` from a sample before and one behind it, to the same side: as it was read, and less the model. */
function standsOut(values: Float64Array, off: Float64Array, i: number, least: number): boolean {
  for (let before = 1; before <= widest; before++) {
    for (let behind = 1; before + behind <= widest + 1; behind++) {
      const isPeak = [values, off].every((of) => {
        const [rise, fall] = [of[i]! - of[i - before]!, of[i]! - of[i + behind]!];
        return rise * fall > 0 && Math.min(Math.abs(rise), Math.abs(fall)) > least;
      });
      if (isPeak) return true;
    }
  }
  return false;
}

function without(beside: Beside, c: number, words: string, isRead: (i: number) => boolean): Hypothesis[] {
  const { channel: path, time_s, values } = beside.columns[c]!;
  const kept = values.map((value, i) => (isRead(i) ? value : Number.NaN));
  const leftOut = kept.reduce((sum, value) => sum + (Number.isNaN(value) ? 1 : 0), 0);
  if (leftOut === 0 || leftOut > mostLeftOut * values.length) return [];
  const fault = { kind: 'readings', path, words } as const;
  return [{ fault, without: withColumn(beside, c, { time_s, values: kept }), moved_s: null }];
}
