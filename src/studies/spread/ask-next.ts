/**
 * Which figure to ask a supplier for next: of every figure that was drawn, the yield among the samples in which it lies in the
 * better half of its range. That much the yield rises where a data sheet, or a requirement, holds it there. A figure
 * that units draw for themselves counts by the mean of its units. Only differences between the halves that 19 of 20
 * figures without influence stay below are named (two proportions, pooled; any textbook of statistics).
 */
import { pathWords } from '../path-words.ts';
import { drawnAt, type Variable } from './tolerance.ts';

export interface AskNext {
  /** Of all its units: `trays.power_lag`. */
  readonly path: string;
  /** `at most 0.3 ms`: the better half of what was drawn. */
  readonly demand: string;
  /** Yield of the samples in which it lies there, and by how much that is above the yield of all. */
  readonly yield_ratio: number;
  readonly gain_ratio: number;
  /** Where the models have the figure from; null where the study states its tolerance. */
  readonly source: string | null;
}

/** 97.5 % point of the standard normal distribution. */
const z = 1.96;

/** Samples on either side below which nothing is said. */
const leastEach = 10;

/** The most that is gained first. `passed`: by sample; null where numbers failed. `sourceOf`: of a path. */
export function askNext(
  variables: readonly Variable[],
  rows: readonly Float64Array[],
  passed: readonly (boolean | null)[],
  figureOf: (path: string) => string,
  sourceOf: (path: string) => string | null,
): readonly AskNext[] {
  const told = passed.flatMap((one, k) => (one === null ? [] : [{ passes: one, row: rows[k]! }]));
  const whole = told.filter(({ passes }) => passes).length / Math.max(1, told.length);
  const figures = new Map<string, number[]>();
  for (const [j, { path }] of variables.entries()) {
    const figure = figureOf(path);
    figures.set(figure, [...(figures.get(figure) ?? []), j]);
  }
  return [...figures]
    .flatMap(([path, places]): AskNext[] => {
      const at = ({ row }: { readonly row: Float64Array }): number =>
        places.reduce((sum, j) => sum + row[j]!, 0) / places.length;
      const halves = [told.filter((one) => at(one) < 0.5), told.filter((one) => at(one) >= 0.5)] as const;
      if (halves.some(({ length }) => length < leastEach)) return [];
      const [low = 0, high = 0] = halves.map(
        (half) => half.filter(({ passes }) => passes).length / half.length,
      );
      const chance = Math.sqrt(whole * (1 - whole) * (1 / halves[0].length + 1 / halves[1].length));
      if (!(Math.abs(high - low) > z * chance)) return [];
      const first = variables[places[0]!]!;
      const middle = drawnAt(first, 0.5)[0]!.value;
      const better = Math.max(low, high);
      return [
        {
          path,
          demand: `${low > high ? 'at most' : 'at least'} ${middle}`,
          yield_ratio: better,
          gain_ratio: better - whole,
          source: sourceOf(first.cells[0]!.path),
        },
      ];
    })
    .sort((a, b) => b.gain_ratio - a.gain_ratio);
}

/** `tray power lag at most 0.3 ms: yield 93 % instead of 81 %`. */
export function askWords(
  { path, demand, yield_ratio, gain_ratio }: AskNext,
  percent: (x: number) => string,
): string {
  return `${pathWords(path)} ${demand}: yield ${percent(yield_ratio)} instead of ${percent(yield_ratio - gain_ratio)}`;
}
