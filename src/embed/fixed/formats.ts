/**
 * Formats of a law's numbers in words of 32 bits: Qm.n has n bits behind the point and m = 31 − n before it, beside the sign.
 *
 * Fields of one unit (V, A, W, J) share a format, which holds twice the largest that the run and the coefficients show of that
 * unit; a field whose text names its bound (`@within`) holds twice that; other signals hold twice their own largest, other
 * coefficients themselves. What is worked out between them follows from what it is worked out of, so that it never saturates
 * while the fields hold: the sum of the largest, their product, the largest over the smallest divisor (half that of the run
 * where it is no coefficient; 2^-8 of its largest where nothing shows it). A name or a function with such a unit holds as
 * much as the fields of that unit do, or twice its own largest.
 */
import type { LawInC } from '../law-in-c.ts';
import type { RangeSteps } from './range-steps.ts';
import type { Slot } from './slot.ts';

/** Bits of a word beside its sign. */
export const wordBits = 31;
const headroom = 2;
const unseenDivisor = 2 ** -8;

export interface Format {
  /** n of Qm.n. */
  readonly fraction: number;
  /** One count. */
  readonly count: number;
  /** Beyond it a number saturates. */
  readonly most: number;
}

const formatOf = (power: number): Format => ({
  fraction: wordBits - power,
  count: 2 ** (power - wordBits),
  most: (2 ** wordBits - 1) * 2 ** (power - wordBits),
});

/** As data sheets name it. */
export const formatName = ({ fraction }: Format): string => `Q${wordBits - fraction}.${fraction}`;

/** Its unit, where fields of that unit share a format. */
const sharedUnit = ({ name, field, within }: Slot): string | null =>
  field === null || within !== null ? null : unitOf(name);

const unitOf = (name: string): string | null =>
  /(^per|_per_|\W)/.test(name) ? null : (/_([VAWJ])$/.exec(name)?.[1] ?? null);

/** Exponent of the power of two that is no less than an amount above 0. */
export const powerAbove = (amount: number): number => {
  let power = Math.ceil(Math.log2(amount));
  while (2 ** power < amount) power++;
  while (2 ** (power - 1) >= amount) power--;
  return power;
};

/** Structures of coefficients: what a law is tuned to, and what these hold. */
function coefficientStructures({ parameters, structures }: LawInC): Set<string> {
  const tuned = parameters.slice(0, -1).filter(([name]) => name !== 'memory' && name !== 'input');
  const all = new Set(tuned.map(([, kind]) => kind));
  for (const one of all) for (const [, kind] of structures[one]!) if (kind in structures) all.add(kind);
  return all;
}

/** The format of every place of a law, by what the runs of it showed. Place 0 holds whole numbers. */
export function formatsOf(law: LawInC, ranges: RangeSteps): Format[] {
  const { slots } = law.fixed;
  const coefficients = coefficientStructures(law);
  const isConstant = ({ field, value }: Slot): boolean =>
    value !== null || coefficients.has((field ?? '').split('.')[0]!);
  const most = slots.map(({ value }, k) => (value === null ? ranges.most[k]! : Math.abs(value)));
  const margin = slots.map((slot) => (isConstant(slot) ? 1 : headroom));
  const named = (name: string): number =>
    Math.max(0, ...slots.map(({ field }, k) => (field?.endsWith(`.${name}`) ? most[k]! : 0)));
  const ofUnit = (unit: string): number =>
    Math.max(0, ...slots.map((slot, k) => (sharedUnit(slot) === unit ? headroom * most[k]! : 0)));
  /** What a field has to hold; null for what is worked out. */
  const held = slots.map((slot, k): number | null => {
    if (slot.field === null) return slot.value;
    const unit = sharedUnit(slot);
    if (unit !== null) return ofUnit(unit);
    return headroom * (slot.within === null ? 0 : named(slot.within)) || margin[k]! * most[k]!;
  });
  const ends = slots.map(({ name, field }, k) => {
    const unit = field === null ? unitOf(name) : null;
    return (unit === null ? 0 : Math.max(ofUnit(unit), headroom * most[k]!)) || Infinity;
  });
  const reach = amounts(slots, ranges, { most, margin, isConstant, held, ends });
  return slots.map((_, k) => {
    const amount = held[k] ?? reach[k]!;
    return formatOf(k === 0 ? wordBits : amount > 0 ? powerAbove(amount * closeBelow) : 0);
  });
}

/** The largest amount of each place: of coefficients their own, of other fields what they hold, of all else what it is made of. */
function amounts(
  slots: readonly Slot[],
  { least }: RangeSteps,
  {
    most,
    margin,
    isConstant,
    held,
    ends,
  }: {
    readonly most: readonly number[];
    readonly margin: readonly number[];
    readonly isConstant: (slot: Slot) => boolean;
    readonly held: readonly (number | null)[];
    readonly ends: readonly number[];
  },
): number[] {
  const reach = slots.map((slot, k) => {
    if (k === 0) return Math.max(1, most[k]!);
    if (isConstant(slot)) return most[k]!;
    const isOfItself = slot.made.some(({ of }) => of.includes(k));
    // A field that the run never filled is taken as one that holds 1.
    return slot.field === null ? most[k]! * (isOfItself ? headroom : 1) : held[k]! || 1;
  });
  const made = ({ how, of }: Slot['made'][number], into: number): number => {
    const from = of.filter((slot) => slot !== into).map((slot) => reach[slot]!);
    if (how === 'product') return from.reduce((product, amount) => product * amount, 1);
    if (how !== 'quotient') return from.reduce((sum, amount) => sum + amount, 0);
    const [a, b] = of as [number, number];
    // What divides by a coefficient of 0 is never reached.
    if (isConstant(slots[b]!) && most[b] === 0) return 0;
    const divisor = smallest(b);
    return divisor > 0 ? reach[a]! / divisor : 0;
  };
  /** The least amount of a divisor: as the run had it, or as products and quotients of such are. */
  const smallest = (k: number): number => {
    if (k === 0) return 1;
    if (least[k]! < Infinity) return least[k]! / margin[k]!;
    const only = slots[k]!.made.length === 1 ? slots[k]!.made[0]! : null;
    const [a, b] = only?.of ?? [];
    if (only?.how === 'product') return smallest(a!) * smallest(b!);
    if (only?.how === 'quotient' && reach[b!]! > 0) return smallest(a!) / reach[b!]!;
    return unseenDivisor * reach[k]!;
  };
  for (let pass = 0, changes = true; changes; pass++) {
    if (pass > slots.length) throw new RangeError('formats of a law grow without an end');
    changes = false;
    slots.forEach((slot, k) => {
      if (k === 0 || slot.field !== null || slot.value !== null) return;
      const amount = Math.min(ends[k]!, Math.max(reach[k]!, ...slot.made.map((one) => made(one, k))));
      changes ||= amount !== reach[k];
      reach[k] = amount;
    });
  }
  return reach;
}

/** So that an amount next below a power of two still has a word when it is rounded. */
const closeBelow = 1 + 2 ** -20;
