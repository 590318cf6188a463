/** What heads the report of every study: tool, study, kind, title, and all that it was made from. */

import { cautionsAt } from '../analysis/words/cautions.ts';
import type { Change, InputFile } from '../scenario/scenario.ts';
import { toolVersion } from '../version.ts';

/**
 * Rises when what a report holds changes its meaning, or what is shown of it needs more: 2 names every trial as data,
 * 3 says what a matrix has tried.
 */
export const studyVersion = 3;

export interface StudyHead {
  readonly schema_version: number;
  readonly tool_version: string;
  readonly study: string;
  readonly kind: string;
  readonly title: string;
  readonly about: string;
  /** What nobody may take from it. */
  readonly cautions: readonly string[];
  readonly inputs: readonly (InputFile | { readonly change: Change })[];
}

export function headOf(
  { id, kind, title, about }: Pick<StudyHead, 'kind' | 'title' | 'about'> & { readonly id: string },
  inputs: StudyHead['inputs'],
  /** Of its cabinets. */
  nominal_V: readonly number[],
): StudyHead {
  return {
    schema_version: studyVersion,
    tool_version: toolVersion,
    ...{ study: id, kind, title, about },
    cautions: cautionsAt(...nominal_V),
    inputs,
  };
}

/** Files of several readings, each once, in the order met. */
export function filesOf(lists: readonly (readonly InputFile[])[]): readonly InputFile[] {
  const files = new Map<string, InputFile>();
  for (const list of lists) for (const file of list) if (!files.has(file.path)) files.set(file.path, file);
  return [...files.values()];
}
