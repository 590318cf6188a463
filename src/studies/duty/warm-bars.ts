/** Bars as warm as they are: their resistances as changes, and how far currents then move. */
import { formatQuantity } from '../../base/quantity.ts';
import type { Change, Scenario } from '../../scenario/scenario.ts';
import { warmedBy } from '../../slow/bar-heat.ts';
import { barOf } from '../../slow/bar-of.ts';
import type { Drive } from '../../slow/drive.ts';

/** Currents below this share of the largest carry no heat that counts. */
const counts_ratio = 0.05;

/** Resistance over that of the model at its stated temperature, by path; segments of a kind share one value, their mean. */
export type Warmth = ReadonlyMap<string, number>;

/** Stretches that leave bars about as warm share a run: resistances are taken in steps of this, half of which is well below what counts. */
const step_ratio = 0.005;

export function warmthOf(scenario: Scenario, bar_K: ReadonlyMap<string, number>): Warmth {
  const ratios = new Map<string, number[]>();
  for (const [id, rise_K] of bar_K) {
    const path = pathOf(scenario, id);
    ratios.set(path, [...(ratios.get(path) ?? []), warmedBy(barOf(scenario, id), rise_K)]);
  }
  const mean = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0) / all.length;
  return new Map([...ratios].map(([path, all]) => [path, step_ratio * Math.round(mean(all) / step_ratio)]));
}

/** How far a resistance lies from what the run had: the largest, relative. */
export function apart(one: Warmth, other: Warmth): number {
  return Math.max(0, ...[...one].map(([path, ratio]) => Math.abs(ratio / (other.get(path) ?? 1) - 1)));
}

export function warmChanges(scenario: Scenario, warmth: Warmth): readonly Change[] {
  const { links, tie, segment, rackSegment } = scenario.bars;
  const pieces = [
    ['bars.segment', segment],
    ['bars.rack_segment', rackSegment],
    ...(tie === null ? [] : ([['bars.tie', tie]] as const)),
    ...links.map((link) => [`bars.links.${link.id}`, link] as const),
  ] as const;
  return pieces.flatMap(([path, { resistance_ohm }]) => {
    const ratio = warmth.get(path);
    if (ratio === undefined) return [];
    return [{ path: `${path}.resistance`, value: formatQuantity(resistance_ohm * ratio, 'resistance', 6) }];
  });
}

/** Largest change of a bar's RMS current between two runs, relative, among those that carry some. */
export function movedBy(before: Drive, after: Drive): { readonly ratio: number; readonly id: string | null } {
  const most_A = Math.max(0, ...before.bars.map(({ rms_A }) => rms_A));
  let found: { readonly ratio: number; readonly id: string | null } = { ratio: 0, id: null };
  for (const { id, rms_A } of before.bars) {
    const now = after.bars.find((bar) => bar.id === id);
    if (now === undefined || rms_A < counts_ratio * most_A) continue;
    const ratio = Math.abs(now.rms_A / rms_A - 1);
    if (ratio > found.ratio) found = { ratio, id };
  }
  return found;
}

function pathOf({ bars }: Scenario, id: string): string {
  if (bars.links.some((link) => link.id === id)) return `bars.links.${id}`;
  if (bars.tie?.id === id) return 'bars.tie';
  return id.startsWith('rack.') ? 'bars.rack_segment' : 'bars.segment';
}
