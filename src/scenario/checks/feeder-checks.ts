/** Checks of a feeder that gives way: the cabinets that share it are simulated as one load. */
import { fittedUnits, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { say } from '../text/say.ts';

export function checkFeeders(structure: Structure, sheet: Sheet): void {
  const giving = fittedUnits(structure, 'feeders', sheet).filter(
    ({ text }) => sheet.number(`feeders.${text}.gives_way`) > 0,
  );
  if (giving.length === 0) return;
  if (sheet.text('coincidence') !== 'independent' || !(sheet.number('cabinets_on_feeder') > 1)) return;
  say(
    sheet,
    sheet.cells.get('coincidence')?.origin ?? null,
    'coincidence',
    `independent, with ${giving.map(({ text }) => text).join(', ')} giving way`,
    'together: on a feeder that gives way the other cabinets take what this one does at every moment',
    'write coincidence: together, or gives_way: 0 for the estimate with independent swings',
  );
}
