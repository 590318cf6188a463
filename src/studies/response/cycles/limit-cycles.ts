/** Limit cycles of a cabinet at a settled point: of each quantum, dead band and slew limit what it swings with, or why nothing is said. */
import type { Cabinet } from '../../../engine/cabinet.ts';
import { none, type Prediction, predict } from '../../../linear/cycles/prediction.ts';
import { clampedShelves } from '../../../linear/rest.ts';
import type { Scenario } from '../../../scenario/scenario.ts';
import type { Places } from '../places.ts';
import type { Hunter } from './hunter.ts';
import { shareHunters } from './share-hunters.ts';
import { slewHunters } from './slew-hunters.ts';
import { voltageHunters } from './voltage-hunters.ts';

export interface LimitCycle {
  readonly element: string;
  /** Which shelves swing, and how. */
  readonly direction: string;
  /** Its quantum, band or limit [`unit`]. */
  readonly size: number;
  readonly unit: 'V' | 'A';
  /** `cycle`: it hunts for ever. `edge`: smaller swings die away, larger ones grow. `none`: no prediction. */
  readonly kind: Prediction['kind'];
  /** Why there is no prediction. */
  readonly why: string | null;
  readonly frequency_Hz: number | null;
  /** What the element is given, and the amplitude of its first harmonic [`unit`]. */
  readonly given: string;
  readonly amplitude: number | null;
  /** Amplitude of the current of each shelf that swings; null where the amplitude is one of voltage alone [A]. */
  readonly shelf_current_A: number | null;
}

/** What comes back across a direction, over along it, with which it still counts as one. Assumed. */
const mostAcross_ratio = 0.1;
/** How far apart, in quanta, shelves of one direction may rest between their codes. Assumed. */
const mostApart = 0.1;

/** How far from midway between two codes, in quanta, a shelf may rest: beyond, pulses are short and the period is another. */
const mostBiased = 0.15;

/** `scenario` with its quanta and bands; `cabinet` at rest without them. */
export function limitCyclesOf(scenario: Scenario, cabinet: Cabinet, places: Places): LimitCycle[] {
  const clamped = clampedShelves(cabinet);
  return [
    ...shareHunters(scenario, cabinet, places),
    ...voltageHunters(scenario, cabinet, places),
    ...slewHunters(cabinet, places),
  ].map((hunter) => {
    const { element, direction, size, unit, given, shelfCurrent_A } = hunter;
    const { kind, why, cycle } =
      clamped.length > 0 ? none(`${clamped.join(', ')} at a clamp at this point`) : predictionOf(hunter);
    const current_A =
      cycle === null ? Number.NaN : cycle.amplitude * shelfCurrent_A(cycle.frequency_Hz, cycle.gain);
    return {
      element,
      direction: direction.words,
      size,
      unit,
      kind,
      why,
      frequency_Hz: cycle?.frequency_Hz ?? null,
      given,
      amplitude: cycle?.amplitude ?? null,
      shelf_current_A: Number.isNaN(current_A) ? null : current_A,
    };
  });
}

/** What is said of one element, of the shelves of its direction together. */
export function predictionOf({ acts, loop, rests, size, silent }: Hunter): Prediction {
  if (silent !== null) return none(silent);
  const off = (rests ?? []).map((u) => Math.abs(u / size - Math.floor(u / size) - 0.5));
  if (Math.max(...off) - Math.min(...off) > mostApart)
    return none('the shelves rest at different places between their codes');
  const found = predict(loop, acts, rests?.[0] ?? 0);
  if (found.cycle === null) return found;
  if (Math.max(...off) > mostBiased && found.cycle.amplitude < size)
    return none('it rests near a code: pulses between two codes would be short');
  const across = loop.across_ratio(found.cycle.frequency_Hz);
  return across > mostAcross_ratio
    ? none(`the shelves answer unlike each other, ${(100 * across).toFixed(0)} % across this direction`)
    : found;
}
