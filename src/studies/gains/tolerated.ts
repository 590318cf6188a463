/** The map under the tolerances of its models: points that fail with some sample are not acceptable, and the worst at the point chosen. */
import type { Change } from '../../scenario/scenario.ts';
import { type Acceptance, criteria } from './accept.ts';
import type { AskedPoints } from './asked-points.ts';
import { type GainsMap, mapWith, type PlacedCell } from './map.ts';
import type { GainsPlan } from './plan.ts';

/** The worst of a criterion over all samples, at the point chosen. */
export interface Worst {
  readonly criterion: keyof Acceptance;
  readonly nominal: number | null;
  readonly value: number | null;
  /** The sample that shows it, from 1, and its changes. */
  readonly sample: number;
  readonly changes: readonly Change[];
}

export async function withTolerances(plan: GainsPlan, map: GainsMap, points: AskedPoints): Promise<GainsMap> {
  if (plan.tolerances === null) return map;
  const good = map.cells.filter((cell) => cell.lacks === null);
  const found = await points.withSamples(
    good.map((cell) => pointOf(map, cell)),
    'all',
  );
  const lackOf = new Map(good.map((cell, k) => [cell, found[k]!]));
  const cells = map.cells.map((cell): PlacedCell => {
    const lack = lackOf.get(cell) ?? null;
    if (lack === null) return cell;
    const sample = lack.sample! + 1;
    return { ...cell, lacks: `with tolerances: ${lack.words} (sample ${sample})`, fails_sample: sample };
  });
  return mapWith(map.axes, cells);
}

export function pointOf({ axes: [a, b] }: GainsMap, { x, y }: PlacedCell): readonly Change[] {
  return [
    { path: a.path, value: a.values[x]! },
    { path: b.path, value: b.values[y]! },
  ];
}

/** The worst of each criterion at the point chosen; none without tolerances or without a point. */
export async function worstOf(
  plan: GainsPlan,
  nominal: PlacedCell | null,
  point: readonly Change[],
  points: AskedPoints,
): Promise<readonly Worst[]> {
  const { tolerances } = plan;
  if (tolerances === null || nominal === null) return [];
  const cells = await points.cellsOf(point);
  return (Object.keys(criteria) as (keyof Acceptance)[]).map((criterion): Worst => {
    const sign = criteria[criterion].side === 'at least' ? 1 : -1;
    // A number that is missing is worse than any.
    const rank = (k: number): number => sign * (cells[k]![criterion] ?? -sign * Number.MAX_VALUE);
    const sample = cells.reduce((least, _, k) => (rank(k) < rank(least) ? k : least), 0);
    return {
      criterion,
      nominal: nominal[criterion],
      value: cells[sample]![criterion],
      sample: sample + 1,
      changes: tolerances.samples[sample]!,
    };
  });
}
