/** A controller of the user's own needs the task that it replaces. */
import type { ControllerSpec } from '../scenario.ts';
import { fittedUnits, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { problemAt } from '../text/document.ts';

export function checkControllers(
  controllers: readonly ControllerSpec[],
  structure: Structure,
  sheet: Sheet,
): void {
  const lacks: Partial<Record<ControllerSpec['replaces'], readonly [found: string, mend: string]>> = {
    ...(isAnyLoopSampled(structure, sheet)
      ? {}
      : {
          'voltage-loop': [
            'no shelf whose voltage loop is sampled',
            'give a period, such as --set shelves.loop_period="50 us", or leave the controller out',
          ],
        }),
    ...(fittedUnits(structure, 'batteries', sheet).length > 0
      ? {}
      : { 'hand-over': ['no battery shelf', 'fit battery shelves, or leave the controller out'] }),
  };
  for (const { replaces, file } of controllers) {
    const lack = lacks[replaces];
    if (lack === undefined) continue;
    const [found, mend] = lack;
    sheet.problems.push(problemAt(null, 'controllers', found, `what ${file} is to control`, mend));
  }
}

function isAnyLoopSampled(structure: Structure, sheet: Sheet): boolean {
  return fittedUnits(structure, 'shelves', sheet).some(
    ({ text }) => sheet.number(`shelves.${text}.loop_period`) > 0,
  );
}
