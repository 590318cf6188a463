/**
 * Currents and voltages that are multiplied to powers. A current that is cut off at its top, or a voltage that stands still,
 * does not show in the product of both, so each is looked at for itself.
 */
import { formatQuantity } from '../../base/quantity.ts';
import { type Cleaned, clean } from '../../samples/clean.ts';
import { Samples } from '../../samples/samples.ts';
import { clippedBelow } from '../../samples/signs/clipped-below.ts';
import { farBelowZero } from '../../samples/signs/far-below-zero.ts';
import { heldBeside } from '../../samples/signs/held.ts';
import { lateBeside } from '../../samples/signs/late.ts';
import type { Sampled, Sign } from '../../samples/signs/sign.ts';
import { signsOf } from '../../samples/signs/signs-of.ts';
import { stillBeside } from '../../samples/signs/still.ts';

interface Factor {
  readonly samples: Samples;
  readonly quantity: 'current' | 'voltage';
  last_s: number;
  sum: number;
  highest: number;
}

export class Factors {
  private readonly taken = new Map<string, Factor>();

  /** `name`: of the column, with the device where rows name one. Several currents may share a voltage: it is met once a stamp. */
  meet(name: string, quantity: Factor['quantity'], time_s: number, value: number): void {
    let factor = this.taken.get(name);
    if (factor === undefined) {
      factor = {
        samples: new Samples(),
        quantity,
        last_s: Number.NaN,
        sum: 0,
        highest: Number.NEGATIVE_INFINITY,
      };
      this.taken.set(name, factor);
    }
    if (!Number.isFinite(value) || time_s === factor.last_s) return;
    factor.samples.add(time_s, value);
    factor.last_s = time_s;
    factor.sum += value;
    factor.highest = Math.max(factor.highest, value);
  }

  /** What each column of voltages shows. */
  voltages(): { readonly name: string; readonly mean_V: number; readonly highest_V: number }[] {
    return [...this.taken].flatMap(([name, { samples, quantity, sum, highest }]) =>
      quantity === 'voltage' && samples.length > 0
        ? [{ name, mean_V: sum / samples.length, highest_V: highest }]
        : [],
    );
  }

  /** Signs of each, by stamps counted from `first_s`. The samples are let go. */
  signs(first_s: number): Sign[] {
    const all = [...this.taken].map(([name, factor]) => ({ ...sampledOf(name, factor, first_s), ...factor }));
    this.taken.clear();
    const of = (quantity: Factor['quantity']) => all.filter((one) => one.quantity === quantity);
    const found = [of('current'), of('voltage')].flatMap((channels) => [
      ...signsOf(channels).signs,
      ...channels.flatMap((one) => [...clippedBelow(one), ...farBelowZero(one, one.below)]),
    ]);
    return [
      ...found,
      // A voltage that is held well stands still by itself, as its meter shows it.
      ...stillBeside(of('current'), found),
      ...heldBeside(of('voltage'), of('current'), found),
      ...lateBeside(of('voltage'), of('current')),
    ];
  }
}

function sampledOf(
  name: string,
  { samples, quantity }: Factor,
  first_s: number,
): Sampled & Pick<Cleaned, 'below'> {
  const { series, below } = clean(samples, first_s);
  const written = (value: number): string => formatQuantity(value, quantity, 4);
  return {
    name,
    time_s: series.time_s,
    values: series.power_W,
    below,
    written,
    rests: quantity === 'current',
  };
}
