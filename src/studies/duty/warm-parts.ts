/** Parts as warm as they are, as changes of a run: bars' resistances, and the temperature of the trays' cells; and how far currents then move. */
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { Drive } from '../../slow/drive.ts';
import type { SlowStates } from '../../slow/slow-states.ts';
import { warmBars } from './warm-bars.ts';
import { warmCells } from './warm-cells.ts';
import type { WarmPart } from './warm-part.ts';

/** By the path of what changes. */
export type Warmth = ReadonlyMap<string, WarmPart>;

/** Currents below this share of the largest carry no heat that counts. */
const counts_ratio = 0.05;

export function warmthOf(
  stretch: Pick<ReadScenario, 'scenario' | 'cells'>,
  { bar_K, tray_degC }: Pick<SlowStates, 'bar_K' | 'tray_degC'>,
): Warmth {
  return new Map([...warmBars(stretch, bar_K), ...warmCells(stretch, tray_degC)]);
}

/** How far a resistance lies from what the run had: the largest, relative. */
export function apart(one: Warmth, other: Warmth): number {
  return Math.max(
    0,
    ...[...one].map(([path, { ratio }]) => Math.abs(ratio / (other.get(path)?.ratio ?? 1) - 1)),
  );
}

export function warmChanges(warmth: Warmth): readonly Change[] {
  return [...warmth].map(([path, { value }]) => ({ path, value }));
}

/** Largest change of an RMS current of a bar or a tray between two runs, relative, among those of their kind that carry some. */
export function movedBy(before: Drive, after: Drive): { readonly ratio: number; readonly id: string | null } {
  const [bars, trays] = [movedAmong(before.bars, after.bars), movedAmong(before.trays, after.trays)];
  return trays.ratio > bars.ratio ? trays : bars;
}

function movedAmong(
  before: readonly { readonly id: string; readonly rms_A: number }[],
  after: typeof before,
): { readonly ratio: number; readonly id: string | null } {
  const most_A = Math.max(0, ...before.map(({ rms_A }) => rms_A));
  let found: { readonly ratio: number; readonly id: string | null } = { ratio: 0, id: null };
  for (const { id, rms_A } of before) {
    const now = after.find((one) => one.id === id);
    if (now === undefined || rms_A < counts_ratio * most_A || rms_A === 0) continue;
    const ratio = Math.abs(now.rms_A / rms_A - 1);
    if (ratio > found.ratio) found = { ratio, id };
  }
  return found;
}
