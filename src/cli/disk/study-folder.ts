/** Whether a folder holds a study: commands that work on one run say so, and what to do instead. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { BadInput } from '../../base/problem.ts';
import { manifestName } from '../../bundle/format.ts';
import { storeName } from '../../studies/bench/kept-lines.ts';
import { quotedPlace } from '../../studies/trials/replay.ts';
import { studyReportName } from './study-files.ts';

/** One that has come to its end, or that was stopped before. */
export function isStudyDir(dir: string): boolean {
  return [studyReportName, storeName].some((name) => existsSync(join(dir, name)));
}

/** Throws BadInput where `dir` holds a study and no run. */
export function refuseStudyDir(dir: string): void {
  if (!isStudyDir(dir) || existsSync(join(dir, manifestName))) return;
  throw new BadInput([
    {
      severity: 'error',
      file: dir,
      found: 'a kept study, which is many runs',
      expected: 'one run, as `run --out` keeps it',
      mend: `see it with buswake view ${quotedPlace(dir)}; one of its trials is kept by the command that repeats it, with --out`,
    },
  ]);
}
