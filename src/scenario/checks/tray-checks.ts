/** Checks of the trays against each other. */
import { formatQuantity } from '../../base/quantity.ts';
import { fittedUnits, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { problemAt } from '../text/document.ts';

/**
 * Smoothing asks every tray for the same power, whatever its kind (`firmware/tray/smoothing.md`): where the smallest give
 * all they may, more of the others is no more of what the cabinet asks for. Kinds beside each other are told, in words that
 * are the same for any number of them: the situations of a study then say it once.
 */
export function checkTrays(structure: Structure, sheet: Sheet): void {
  const units = fittedUnits(structure, 'trays', sheet);
  const power_W = units.map(({ text }) => sheet.number(`trays.${text}.power_limit`));
  const least_W = Math.min(...power_W);
  const first = units.find((_, k) => power_W[k] === least_W);
  if (first === undefined || !power_W.some((power) => power > least_W)) return;
  const words = (power: number): string => formatQuantity(power, 'power', 4);
  const kinds = [...new Set(power_W)].sort((a, b) => a - b).map(words);
  const path = `trays.${first.text}.power_limit`;
  sheet.problems.push(
    problemAt(
      sheet.cells.get(path)?.origin ?? null,
      path,
      `trays of ${kinds.join(' and ')} beside each other`,
      'trays of one power: each is asked for the same share, whatever its kind',
      `count each as ${words(least_W)} for smoothing, or raise the smaller ones`,
      'warning',
    ),
  );
}
