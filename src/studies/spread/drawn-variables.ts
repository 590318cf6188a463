/** What a study draws: its own tolerances, and where it asks for them or names none, those that the models state. */
import { BadInput } from '../../base/problem.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import { nearestOr } from '../../scenario/text/nearest.ts';
import { overlap, refuseOverlaps } from '../written/overlap.ts';
import type { StudyFile } from '../written/study-file.ts';
import { modelTolerances } from './model-tolerances.ts';
import { type Variable, variablesOf } from './tolerance.ts';

/** `base`: the scenario about whose values is drawn. Throws BadInput. */
export function drawnVariables(study: StudyFile, base: ReadScenario): readonly Variable[] {
  const unknown = (path: string): never => {
    const mend = nearestOr('the command check --paths lists them all', path, base.paths);
    return refuse(path, `path ${path}`, 'a path of the scenario that is a number', mend);
  };
  const own = study.tolerances.map(([path]) => path);
  refuseOverlaps(own, base.cells, '--tolerance');
  const isOwn = (path: string): boolean => own.some((other) => overlap(other, path, base.cells));
  // Who names nothing means what the models say; who names some means these, unless models are asked for beside.
  const models = study.words.get('models') ?? (study.tolerances.length === 0 ? 'yes' : 'no');
  const ofModels = models === 'yes' ? modelTolerances(base) : [];
  const written = [...study.tolerances, ...ofModels.filter(([path]) => !isOwn(path))];
  if (written.length === 0) {
    refuse(
      'tolerances',
      'nothing to sample',
      'at least one tolerance',
      'give for example --tolerance "trays.esr=normal by 10 %"',
    );
  }
  return variablesOf(written, base.cells, base.scenario.tick_s, unknown);
}

function refuse(path: string, found: string, expected: string, mend: string): never {
  throw new BadInput([{ severity: 'error', path, found, expected, mend }]);
}
