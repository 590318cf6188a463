/** A column that counts the rows of a file and that nothing else is read from: where it jumps, rows are missing. */
import { wordsOf } from './column-names.ts';

const countingWords = new Set(
  'index idx no nr number seq sequence sample samples row rows count counter record records line point'.split(
    ' ',
  ),
);

/** A step that is shared by fewer rows than this share is no count of rows. */
const common_ratio = 0.2;
/** Counts in steps of more than this count something else, ticks for example. */
const widestStep = 9;
const fewestSteps = 10;

export class RowCounter {
  private readonly index: number;
  private readonly name: string;
  private last = Number.NaN;
  /** How often each step was met, up to so many different ones. */
  private readonly steps = new Map<number, number>();
  private total = 0;
  private isNone = false;

  constructor(name: string, index: number) {
    this.name = name;
    this.index = index;
  }

  /** Looks at a row, whatever else is read of it. */
  meet(row: readonly string[]): void {
    if (this.isNone) return;
    const cell = (row[this.index] ?? '').trim();
    if (!/^\d{1,15}$/.test(cell)) return;
    const count = Number(cell);
    const step = count - this.last;
    this.last = count;
    if (Number.isNaN(step)) return;
    this.total++;
    this.steps.set(step, (this.steps.get(step) ?? 0) + 1);
    // What stands still or falls again and again counts no rows; so does what has a hundred different steps.
    this.isNone = (step <= 0 && this.falls() > 1 + 0.001 * this.total) || this.steps.size > 100;
  }

  /** A sentence where rows are missing by the count; empty where none are, or where it counts something else. */
  warning(): string[] {
    const { name, steps, total } = this;
    const rising = [...steps].filter(([step]) => step > 0);
    if (this.isNone || total < fewestSteps || rising.length === 0) return [];
    const one = Math.min(...rising.map(([step]) => step));
    if (one > widestStep || steps.get(one)! < common_ratio * total) return [];
    const jumps = rising.filter(([step]) => step > one);
    const places = jumps.reduce((sum, [, times]) => sum + times, 0);
    const missing = jumps.reduce((sum, [step, times]) => sum + times * (step / one - 1), 0);
    const by = one === 1 ? '' : ` in steps of ${one}: of ${one} rows ${one - 1} may be missing`;
    const at = places === 0 ? '' : ` and jumps at ${places} places, ${Math.round(missing)} rows short`;
    return by === '' && at === '' ? [] : [`Column ${name} counts the rows${by}${at}.`];
  }

  private falls(): number {
    let sum = 0;
    for (const [step, times] of this.steps) if (step <= 0) sum += times;
    return sum;
  }
}

/** The counter among columns that are not read; null where none is called so. */
export function rowCounterIn(names: readonly string[], read: ReadonlySet<number>): RowCounter | null {
  const index = names.findIndex((name, i) => {
    const words = wordsOf(name);
    return (
      !read.has(i) &&
      (name.trim() === '#' ||
        name.trim() === 'n' ||
        (words.length > 0 && words.every((word) => countingWords.has(word))))
    );
  });
  return index < 0 ? null : new RowCounter(names[index]!.trim(), index);
}
