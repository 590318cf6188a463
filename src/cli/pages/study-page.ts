/** Makes the page of a kept study: one HTML file with its report inside, and the engine that runs its trials; opens offline. */
import { join } from 'node:path';
import { ownCautions } from '../../analysis/words/cautions.ts';
import { engineName, studyInputsName } from '../../bundle/page-contents.ts';
import { readBytes } from '../../disk/read-file.ts';
import { hasTrials, readStudyReport } from '../../studies/kept-report.ts';
import { jsonText, studyReportName } from '../disk/study-files.ts';
import { readStudyInputs } from '../disk/study-inputs.ts';
import { refuseChangedStudy } from '../disk/study-whole.ts';
import { summed } from './checked.ts';
import { pagePart } from './page-part.ts';
import { fillShell } from './shell.ts';

/** Throws BadInput where the report is not whole, of a later version, or of a kind without a page. */
export function makeStudyPage(dir: string): string {
  const path = join(dir, studyReportName);
  refuseChangedStudy(dir);
  const bytes = readBytes(path);
  const report = readStudyReport(bytes, path);
  return fillShell({
    main: 'study/main.html',
    maker: 'view',
    cautions: ownCautions(report.cautions),
    checked: summed('the study'),
    style: pagePart('study/study.css'),
    script: pagePart('study/main.js'),
    carried: [[studyReportName, bytes], ...(hasTrials(report) ? engineAndInputs(dir) : [])],
  });
}

/** What the page runs a trial with; nothing where the study was kept without its inputs. */
function engineAndInputs(dir: string): [string, Uint8Array][] {
  const inputs = readStudyInputs(dir);
  if (inputs === null) return [];
  const list = inputs.map(({ path, sha256, file }) => ({ path, sha256, file }));
  return [
    [engineName, new TextEncoder().encode(pagePart('engine/worker/worker.js'))],
    [studyInputsName, new TextEncoder().encode(jsonText(list))],
    ...inputs.map(({ file, bytes }): [string, Uint8Array] => [file, bytes]),
  ];
}
