import type { InputFile } from '../../scenario/scenario.ts';
import { toolVersion } from '../../version.ts';
import { filesOf } from '../head.ts';
import type { Planned } from '../study.ts';
import type { ReadChanged } from '../trials/trial.ts';
import type { StudyFile } from './study-file.ts';

/**
 * What a plan holds that was made from a study's file: its name, and every file that its scenarios are made of. `changed`:
 * files of scenarios that were read with changes, which may name further ones.
 */
export function plannedFrom(
  study: StudyFile,
  read: ReadChanged,
  beside: object = {},
  changed: readonly (readonly InputFile[])[] = [],
): Planned {
  const scenarios = new Set([study.scenario, ...study.cases.flatMap(({ scenario }) => scenario ?? [])]);
  return {
    called: study.id,
    warnings: [],
    identity: {
      tool_version: toolVersion,
      study: { ...study, words: Object.fromEntries(study.words), inputs: [], ...beside },
      inputs: filesOf([
        study.inputs,
        ...[...scenarios].map((scenario) => read({ scenario, changes: [] }).scenario.inputs),
        ...changed,
      ]),
    },
  };
}
