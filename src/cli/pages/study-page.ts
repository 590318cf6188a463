/** Makes the page of a kept study: one HTML file with its report inside, which opens offline. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { readBytes } from '../../disk/read-file.ts';
import { readStudyReport } from '../../studies/kept-report.ts';
import { studyReportName } from '../disk/study-files.ts';
import { pageScript, pageStyle } from './bundled.ts';
import { fillShell } from './shell.ts';

export function isStudyDir(dir: string): boolean {
  return existsSync(join(dir, studyReportName));
}

/** Throws BadInput where the report is not whole, of a later version, or of a kind without a page. */
export async function makeStudyPage(dir: string): Promise<string> {
  const path = join(dir, studyReportName);
  const bytes = readBytes(path);
  readStudyReport(bytes, path);
  return fillShell({
    main: 'study/main.html',
    maker: 'view',
    style: await pageStyle('study/study.css'),
    script: await pageScript('study/main.ts'),
    carried: [[studyReportName, bytes]],
  });
}
