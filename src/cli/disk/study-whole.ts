/** A study that came to its end: its files, and last of all their sums, by which whoever reads it knows that it is whole. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { studyInputsName } from '../../bundle/page-contents.ts';
import { eachPiece } from '../../disk/pieces.ts';
import { checkSumList, writeSumList } from '../../disk/sum-list.ts';
import { storeName } from '../../studies/bench/kept-lines.ts';
import { type StudyFiles, writeStudyFiles } from './study-files.ts';
import { listedInputs } from './study-inputs.ts';

/** Writes the report and its papers beside trials and inputs, which lie there already, and sums all of them up. */
export function endStudy(dir: string, files: StudyFiles): void {
  writeStudyFiles(dir, files);
  const inputs = listedInputs(dir) ?? [];
  const before = [storeName, studyInputsName, ...inputs.map(({ file }) => file)];
  writeSumList(dir, [...Object.keys(files), ...before.filter((name) => existsSync(join(dir, name)))]);
}

/** Throws BadInput where a file of the study is missing, was cut short or changed, or where it never came to its end. */
export function refuseChangedStudy(dir: string): void {
  checkSumList(
    dir,
    'it was changed, is a part that waits to be merged, or was stopped before its end: carry out the study again with --out DIR --resume; trials that are whole are not run again; where that is refused, --force begins it anew',
  );
  // Who changes a file can make its sum anew: what the list of inputs names must lie in the folder all the same.
  for (const { file } of listedInputs(dir) ?? [])
    eachPiece(join(dir, file), join(dir, file), () => undefined);
}
