/** A limit cycle in words. */
import { numberText } from '../../../analysis/words/number-text.ts';
import type { LimitCycle } from './limit-cycles.ts';

/** Element, shelves, size, and what is said of it. */
export function cycleCells(cycle: LimitCycle): string[] {
  const { element, direction, size, unit } = cycle;
  return [element, direction, numberText(size, unit, 3), cycleWords(cycle)];
}

function cycleWords({
  kind,
  why,
  amplitude,
  unit,
  given,
  frequency_Hz,
  shelf_current_A,
}: LimitCycle): string {
  if (kind === 'none') return `no prediction: ${why}`;
  const swing = `${given} ±${numberText(amplitude!, unit, 3)} at ${numberText(frequency_Hz!, 'Hz', 3)}`;
  const current = shelf_current_A === null ? '' : `, ±${numberText(shelf_current_A, 'A', 3)} of each shelf`;
  return kind === 'cycle'
    ? `hunts: ${swing}${current}`
    : `smaller swings die away, larger ones grow: ${swing}${current}`;
}
