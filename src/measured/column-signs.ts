/** What measured columns show of being wrong by themselves, before anything is compared with them. */
import { numberText } from '../analysis/words/number-text.ts';
import { heldBeside } from '../samples/signs/held.ts';
import { hurried } from '../samples/signs/hurried.ts';
import { type Sampled, type Sign, signSentence } from '../samples/signs/sign.ts';
import { signsOf } from '../samples/signs/signs-of.ts';
import { stillBeside } from '../samples/signs/still.ts';
import { clippedBelow } from './cut-off.ts';
import { type MeasuredUnit, unitOfChannel } from './measured-unit.ts';
import type { MeasuredColumn } from './measurement.ts';

type Column = Pick<MeasuredColumn, 'channel' | 'time_s' | 'values'>;

/** Times count from the first stamp of the file; a sign is of a channel. */
export function columnSigns(columns: readonly Column[]): readonly Sign[] {
  const units = [...new Set(columns.map(({ channel }) => unitOfChannel(channel)))];
  const alike = units.flatMap((unit) => {
    const own = columns.filter(({ channel }) => unitOfChannel(channel) === unit);
    const all = own.map((column) => sampled(column, unit));
    return [...signsOf(all).signs, ...all.flatMap(clippedBelow)];
  });
  const of = (unit: MeasuredUnit): Sampled[] =>
    columns.flatMap((column) => (unitOfChannel(column.channel) === unit ? [sampled(column, unit)] : []));
  const moving = [...of('A'), ...of('W')];
  return [
    ...copiesAcrossUnits(columns),
    ...alike,
    ...stillBeside(moving, alike),
    ...hurried(units.flatMap(of)),
    ...heldBeside(of('V'), of('A'), alike),
  ];
}

/** As a warning of a measurement. */
export function signWarning(sign: Sign): string {
  return `In the file, by its own time: ${signSentence(sign)}`;
}

function sampled({ channel, time_s, values }: Column, unit: MeasuredUnit): Sampled {
  const written = (value: number): string => numberText(value, unit === 'ratio' ? '' : unit);
  // Powers and currents rest at idle, a voltage does not.
  return { name: channel, time_s, values, written, rests: unit !== 'V' };
}

/** A voltage and a current are never the same numbers: one column was mapped, or exported, twice. */
function copiesAcrossUnits(columns: readonly Column[]): Sign[] {
  return columns.flatMap((column, k): Sign[] => {
    const { channel, time_s, values } = column;
    const one = columns
      .slice(0, k)
      .find((other) => unitOfChannel(other.channel) !== unitOfChannel(channel) && isSame(other, column));
    if (one === undefined) return [];
    return [
      {
        kind: 'twin',
        channel,
        from_s: time_s[0] ?? 0,
        to_s: time_s[time_s.length - 1] ?? 0,
        shows: `${channel} repeats ${one.channel} in all ${values.length} samples`,
        asks: 'was one column exported or mapped twice?',
      },
    ];
  });
}

function isSame(a: Column, b: Column): boolean {
  return a.values.length === b.values.length && a.values.every((value, i) => value === b.values[i]);
}
