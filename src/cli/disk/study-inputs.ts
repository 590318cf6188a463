/**
 * The inputs of a study beside its trials, as they were when it began: with them every trial can be run again, wherever
 * the directory is taken and whatever became of the files since.
 */
import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { BadInput } from '../../base/problem.ts';
import type { InputEntry, KeptInput } from '../../bundle/format.ts';
import { inputEntries } from '../../bundle/manifest-shape.ts';
import { type ReadInput, unpackInput } from '../../bundle/pack-input.ts';
import { studyInputsName } from '../../bundle/page-contents.ts';
import { fitted } from '../../bundle/shape.ts';
import { readBytes } from '../../disk/read-file.ts';
import { jsonText, writeStudyFiles } from './study-files.ts';

/** In place of those of a study that was kept there before; nothing else in the directory is touched. */
export function writeStudyInputs(dir: string, inputs: readonly KeptInput[]): void {
  const entries = inputs.map(({ path, sha256, file, gzip }): InputEntry => ({ path, sha256, file, gzip }));
  const kept = new Set(entries.map(({ file }) => file));
  for (const { file } of listedBefore(dir)) if (!kept.has(file)) rmSync(join(dir, file), { force: true });
  const files = inputs.map(({ file, content }) => [file, content] as const);
  writeStudyFiles(dir, { ...Object.fromEntries(files), [studyInputsName]: jsonText(entries) });
}

/** An input as it was read, with the file that it was kept in. */
export type StudyInput = ReadInput & Pick<InputEntry, 'file'>;

/** null where the study was kept without them. Throws BadInput where one is missing or not as it was kept. */
export function readStudyInputs(dir: string): readonly StudyInput[] | null {
  const entries = listedInputs(dir);
  if (entries === null) return null;
  return entries.map((entry) => ({
    ...unpackInput({ ...entry, content: readBytes(join(dir, entry.file)) }),
    file: entry.file,
  }));
}

/** What the list of inputs in `dir` names; null where there is none. Throws BadInput where it is not as it was kept. */
export function listedInputs(dir: string): readonly InputEntry[] | null {
  const list = join(dir, studyInputsName);
  if (!existsSync(list)) return null;
  try {
    return fitted(inputEntries, parsed(readBytes(list).toString('utf8')), list);
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    const mend =
      'carry out the study again with --out DIR --resume: it is written anew, whole trials are kept';
    throw new BadInput(error.problems.map((problem) => ({ ...problem, mend })));
  }
}

/** Those of a study that is written over; a list that was spoilt names none, and what it named stays. */
function listedBefore(dir: string): readonly InputEntry[] {
  try {
    return listedInputs(dir) ?? [];
  } catch (error) {
    if (error instanceof BadInput) return [];
    throw error;
  }
}

/** What is no JSON fits no list, and is told as that. */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}
