/** Samples that are no readings: at the end of a range, frozen, alone, repeated. Without them the rest stands for itself. */
import { columnSigns } from '../../../measured/column-signs.ts';
import { unitOfChannel } from '../../../measured/measured-unit.ts';
import type { SignKind } from '../../../samples/signs/sign.ts';
import { clippedAt, clippedWords } from '../clipped.ts';
import { type Beside, type Hypothesis, withColumn } from './fault.ts';

/** A recording without more than this of a channel says nothing. */
const mostLeftOut = 0.6;

export function noReadings(beside: Beside): Hypothesis[] {
  return [...clippedReadings(beside), ...signedReadings(beside)];
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

/** Signs of samples; those of a whole channel say nothing of which to leave out. */
const ofSamples: readonly SignKind[] = ['frozen', 'zeros', 'clipped', 'spike', 'repeated'];

function signedReadings(beside: Beside): Hypothesis[] {
  const signs = columnSigns(beside.columns).filter(({ kind }) => ofSamples.includes(kind));
  return signs.flatMap(({ channel, from_s, to_s, sentence }) => {
    const c = beside.columns.findIndex((column) => column.channel === channel);
    const { time_s } = beside.columns[c]!;
    return without(beside, c, sentence, (i) => time_s[i]! < from_s || time_s[i]! > to_s);
  });
}

function without(beside: Beside, c: number, words: string, isRead: (i: number) => boolean): Hypothesis[] {
  const { channel: path, time_s, values } = beside.columns[c]!;
  const kept = values.map((value, i) => (isRead(i) ? value : Number.NaN));
  const leftOut = kept.reduce((sum, value) => sum + (Number.isNaN(value) ? 1 : 0), 0);
  if (leftOut === 0 || leftOut > mostLeftOut * values.length) return [];
  const fault = { kind: 'readings', path, words } as const;
  return [{ fault, without: withColumn(beside, c, { time_s, values: kept }), moved_s: null }];
}
