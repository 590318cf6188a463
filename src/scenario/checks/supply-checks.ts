/** Whether shelves can carry for good what the load asks before anything happens to it: beyond that no start comes to rest. */
import { formatQuantity } from '../../base/quantity.ts';
import type { LoadSpec } from '../scenario.ts';
import { fittedUnits, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { problemAt } from '../text/document.ts';

export function checkSupply(structure: Structure, loadKind: LoadSpec['kind'] | null, sheet: Sheet): void {
  const [path, held_W] = heldPower(loadKind, sheet);
  const most_W = fittedUnits(structure, 'shelves', sheet).reduce((sum, { text }) => {
    const of = (key: string): number => sheet.number(`shelves.${text}.${key}`);
    return sum + of('current_limit') * of('module_count') * of('module_power');
  }, 0);
  if (!(held_W > most_W)) return;
  sheet.problems.push(
    problemAt(
      sheet.cells.get(path)?.origin ?? null,
      path,
      `${formatQuantity(held_W, 'power', 4)} without an end`,
      `at most ${formatQuantity(most_W, 'power', 4)}, which is all that the shelves give at their current limits`,
      'fit more shelves or lower the load: this cabinet has no point to rest at',
      'warning',
    ),
  );
}

/** What the load asks on the mean before anything happens, and the value that says so [W]. */
function heldPower(loadKind: LoadSpec['kind'] | null, sheet: Sheet): readonly [path: string, held_W: number] {
  const n = (key: string): number => sheet.number(`load.${key}`);
  if (loadKind === 'constant') return ['load.power', n('power')];
  if (loadKind === 'step') return ['load.before', n('before')];
  if (loadKind === 'pulse-train') return ['load.high', n('low') + n('duty') * (n('high') - n('low'))];
  return ['', 0];
}
