/** The map in its circumstances: points that fail in one of them are not acceptable; the worst of all at the point chosen. */
import type { Change } from '../../scenario/scenario.ts';
import { type Acceptance, criteria } from './accept.ts';
import type { AskedPoints } from './asked-points.ts';
import type { GainsCell } from './cell.ts';
import { type GainsMap, mapWith, type PlacedCell } from './map.ts';
import type { GainsPlan } from './plan.ts';

/** The worst of a criterion over all circumstances, at the point chosen. */
export interface Worst {
  readonly criterion: keyof Acceptance;
  /** Null where nothing has such a number: a cabinet without a share loop. */
  readonly nominal: number | null;
  readonly value: number | null;
  /** What shows it, and its changes; `as it is` where nothing is worse. */
  readonly circumstance: string;
  readonly changes: readonly Change[];
}

export async function inCircumstances(
  plan: GainsPlan,
  map: GainsMap,
  points: AskedPoints,
): Promise<GainsMap> {
  if (plan.circumstances.length === 0) return map;
  const good = map.cells.filter((cell) => cell.lacks === null);
  const found = await points.inAll(
    good.map((cell) => pointOf(map, cell)),
    'all',
  );
  const lackOf = new Map(good.map((cell, k) => [cell, found[k]!]));
  const cells = map.cells.map((cell): PlacedCell => {
    const lack = lackOf.get(cell) ?? null;
    if (lack === null) return cell;
    const fails_in = lack.circumstance!.words;
    return { ...cell, lacks: `${lack.words} (${fails_in})`, fails_in };
  });
  return mapWith(map.axes, cells);
}

export function pointOf({ axes: [a, b] }: GainsMap, { x, y }: PlacedCell): readonly Change[] {
  return [
    { path: a.path, value: a.values[x]! },
    { path: b.path, value: b.values[y]! },
  ];
}

/** The worst of each criterion at the point chosen; none without circumstances or without a point. */
export async function worstOf(
  { circumstances }: GainsPlan,
  nominal: PlacedCell | null,
  point: readonly Change[],
  points: AskedPoints,
): Promise<readonly Worst[]> {
  if (circumstances.length === 0 || nominal === null) return [];
  const cells: readonly GainsCell[] = [nominal, ...(await points.cellsOf(point))];
  return (Object.keys(criteria) as (keyof Acceptance)[]).map((criterion): Worst => {
    const sign = criteria[criterion].side === 'at least' ? 1 : -1;
    // A number that is missing is asked of nobody: `lacks` has seen to what must have one.
    const rank = (k: number): number => sign * (cells[k]![criterion] ?? sign * Number.MAX_VALUE);
    const worst = cells.reduce((least, _, k) => (rank(k) < rank(least) ? k : least), 0);
    const circumstance = circumstances[worst - 1];
    return {
      criterion,
      nominal: nominal[criterion],
      value: cells[worst]![criterion],
      circumstance: circumstance?.words ?? 'as it is',
      changes: circumstance?.changes ?? [],
    };
  });
}
