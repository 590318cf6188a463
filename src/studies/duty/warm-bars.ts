/** Bars as warm as they are: their resistances, as changes write them. */
import { formatQuantity } from '../../base/quantity.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { warmedBy } from '../../slow/bar-heat.ts';
import { barOf } from '../../slow/bar-of.ts';
import { statedFor } from './stated.ts';
import type { WarmPart } from './warm-part.ts';

type Read = Pick<ReadScenario, 'scenario' | 'cells'>;

/** Stretches that leave bars about as warm share a run: resistances are taken in steps of this, half of which is well below what counts. */
const step_ratio = 0.005;

/** By path; segments of a kind share one value, their mean. */
export function warmBars(
  { scenario, cells }: Read,
  bar_K: ReadonlyMap<string, number>,
): readonly (readonly [path: string, part: WarmPart])[] {
  const ratios = new Map<string, number[]>();
  for (const [id, rise_K] of bar_K) {
    const path = pathOf(scenario, id);
    ratios.set(path, [...(ratios.get(path) ?? []), warmedBy(barOf(scenario, id), rise_K)]);
  }
  const mean = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0) / all.length;
  return piecesOf(scenario).flatMap(([path, resistance_ohm]) => {
    const all = ratios.get(path);
    if (all === undefined) return [];
    const ratio = step_ratio * Math.round(mean(all) / step_ratio);
    const key = `${path}.resistance`;
    const value = formatQuantity(statedFor(cells, key, resistance_ohm * ratio), 'resistance', 6);
    return [[key, { ratio, value }] as const];
  });
}

function piecesOf({ bars }: Scenario): readonly (readonly [path: string, resistance_ohm: number])[] {
  const { links, tie, segment, rackSegment } = bars;
  return [
    ['bars.segment', segment.resistance_ohm],
    ['bars.rack_segment', rackSegment.resistance_ohm],
    ...(tie === null ? [] : [['bars.tie', tie.resistance_ohm] as const]),
    ...links.map(({ id, resistance_ohm }) => [`bars.links.${id}`, resistance_ohm] as const),
  ];
}

function pathOf({ bars }: Scenario, id: string): string {
  if (bars.links.some((link) => link.id === id)) return `bars.links.${id}`;
  if (bars.tie?.id === id) return 'bars.tie';
  return id.startsWith('rack.') ? 'bars.rack_segment' : 'bars.segment';
}
