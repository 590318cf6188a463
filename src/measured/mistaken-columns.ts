/**
 * Columns that no place in time can bring to the model: another sign, another unit, or one column for another. By sizes
 * alone, over all of the file and all of the run, so that it is known before anything is placed.
 */
import { numberText } from '../analysis/words/number-text.ts';
import { formatQuantity } from '../base/quantity.ts';
import { ofRank } from '../samples/quantile.ts';
import type { Curves } from './curve/curve.ts';
import { bare, unitOfChannel } from './measured-unit.ts';
import type { MeasuredColumn } from './measurement.ts';

/** Where values lie: from their tenth to their ninetieth hundredth, so that a few say nothing. */
interface Spread {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  /** Largest magnitude of these. */
  readonly size: number;
}

interface Beside {
  readonly channel: string;
  readonly measured: Spread;
  readonly simulated: Spread;
}

/** Of values of one sign the smaller end is more than this share of the larger. */
const oneSigned = 0.05;
/** A size is a thousand times another within this factor. */
const aboutThousand = 2;
const prefixes = [
  { factor: 1e3, prefix: 'm' },
  { factor: 1e6, prefix: 'µ' },
  { factor: 1e-3, prefix: 'k' },
] as const;
/** In half widths of where the simulated channel lies, but a twentieth of its size at least. */
const leastHalf_ratio = 0.05;
const [far, near] = [4, 1.5];

/** One sentence each. */
export function mistakenColumns(
  columns: readonly Pick<MeasuredColumn, 'channel' | 'values'>[],
  { of }: Pick<Curves, 'of'>,
): string[] {
  const all = columns.flatMap(({ channel, values }): Beside[] => {
    const curve = of.get(channel);
    return curve === undefined || curve.values.length === 0 || values.length === 0
      ? []
      : [{ channel, measured: spreadOf(values), simulated: spreadOf(curve.values) }];
  });
  const exchanged = exchangedIn(all);
  const rest = all.filter(({ channel }) => !exchanged.some(({ channels }) => channels.includes(channel)));
  return [...exchanged.map(({ sentence }) => sentence), ...rest.flatMap(turned), ...rest.flatMap(otherUnit)];
}

function spreadOf(values: Float64Array): Spread {
  const at = (share: number): number =>
    ofRank(values.length, (i) => values[i]!, Math.round(share * (values.length - 1)));
  const [low, middle, high] = [at(0.1), at(0.5), at(0.9)];
  return { low, middle, high, size: Math.max(Math.abs(low), Math.abs(high)) };
}

/** 1 or −1 where nearly all values are of one sign. */
function signOf({ low, high }: Spread): -1 | 0 | 1 {
  if (low > 0 && high > 0 && low > oneSigned * high) return 1;
  return low < 0 && high < 0 && high < oneSigned * low ? -1 : 0;
}

function turned({ channel, measured, simulated }: Beside): string[] {
  if (signOf(measured) * signOf(simulated) !== -1) return [];
  return [
    `${channel} has the other sign: about ${text(measured.middle, channel)} measured, ${text(simulated.middle, channel)} simulated. Turn the probe, or declare it by --sensor "${channel}=KIND, scale -1".`,
  ];
}

function otherUnit({ channel, measured, simulated }: Beside): string[] {
  if (measured.size === 0 || simulated.size === 0) return [];
  for (const { factor, prefix } of prefixes) {
    const off = measured.size / simulated.size / factor;
    const middle = Math.abs(measured.middle / simulated.middle) / factor;
    if (!isAboutOne(off) || !isAboutOne(middle)) continue;
    const unit = unitOfChannel(channel);
    return [
      `${channel} is about ${formatQuantity(factor, 'ratio')} times what the model shows: ${text(measured.middle, channel)} measured, ${text(simulated.middle, channel)} simulated. Where its column is in ${prefix}${unit}, name it so: ${bare(channel)}_${prefix}${unit}.`,
    ];
  }
  return [];
}

function isAboutOne(ratio: number): boolean {
  return ratio < aboutThousand && ratio > 1 / aboutThousand;
}

interface Exchanged {
  readonly channels: readonly [string, string];
  readonly sentence: string;
}

/** Two columns that do not fit their own channels and fit each other's. */
function exchangedIn(all: readonly Beside[]): Exchanged[] {
  return all.flatMap((a, k) =>
    all.slice(k + 1).flatMap((b): Exchanged[] => {
      const own = Math.max(awayFrom(a.measured, a.simulated), awayFrom(b.measured, b.simulated));
      const other = Math.max(awayFrom(a.measured, b.simulated), awayFrom(b.measured, a.simulated));
      if (own < far || other > near) return [];
      const [one, two] = [a.channel, b.channel];
      return [
        {
          channels: [one, two],
          sentence: `${one} and ${two} look exchanged: the column of ${one} is about ${numberText(a.measured.middle, '')}, that of ${two} about ${numberText(b.measured.middle, '')}, where the model shows ${text(a.simulated.middle, one)} and ${text(b.simulated.middle, two)}. Exchange them by --map.`,
        },
      ];
    }),
  );
}

/** How far the middle of one lies from the middle of another, in its half widths. */
function awayFrom(one: Spread, { low, middle, high, size }: Spread): number {
  return Math.abs(one.middle - middle) / Math.max((high - low) / 2, leastHalf_ratio * size, 1e-12);
}

function text(value: number, channel: string): string {
  const unit = unitOfChannel(channel);
  return numberText(value, unit === 'ratio' ? '' : unit);
}
