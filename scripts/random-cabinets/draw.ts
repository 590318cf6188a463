/** What a random cabinet is drawn with: seeded numbers in the forms that its parts ask for. */
import { Random } from '../../src/loads/random.ts';

export class Draw {
  private readonly random: Random;

  /** Cabinet `number` of a series: the same for ever, whichever others are drawn. */
  constructor(seed: number, number: number) {
    this.random = new Random(seed * 1_000_003 + number);
  }

  /** Evenly in [low, high). */
  between(low: number, high: number): number {
    return low + (high - low) * this.random.uniform();
  }

  /** Evenly on a logarithmic scale: as many between 1 and 10 as between 10 and 100. */
  acrossDecades(low: number, high: number): number {
    return low * (high / low) ** this.random.uniform();
  }

  /** A whole number from `low` to `high`, both included. */
  whole(low: number, high: number): number {
    return low + Math.floor((high - low + 1) * this.random.uniform());
  }

  chance(probability: number): boolean {
    return this.random.uniform() < probability;
  }

  pick<T>(from: readonly T[]): T {
    if (from.length === 0) throw new RangeError('nothing to pick from');
    return from[this.whole(0, from.length - 1)]!;
  }

  shuffled<T>(from: readonly T[]): T[] {
    const left = [...from];
    const out: T[] = [];
    while (left.length > 0) out.push(...left.splice(this.whole(0, left.length - 1), 1));
    return out;
  }
}

/** A number as a file has it: four digits, so that what is kept reads well and plays the same. */
export function written(value: number, unit: string): string {
  return `${Number(value.toPrecision(4))}${unit === '' ? '' : ' '}${unit}`;
}

/** A time in whole ticks of 0.25 µs, as a file has it. */
export function writtenTime(time_s: number): string {
  return `${Math.max(1, Math.round(time_s * 1e5)) / 100} ms`;
}
