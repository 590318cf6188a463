/** Makes the page of a kept study: one HTML file with its report inside, which opens offline. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { home } from '../../home.ts';
import { studyReportName } from '../disk/study-files.ts';
import { inScript, pageScript, pageStyle } from './page.ts';

const web = join(home, 'web/');

export function isStudyDir(dir: string): boolean {
  return existsSync(join(dir, studyReportName));
}

export async function makeStudyPage(dir: string): Promise<string> {
  const parts: Readonly<Record<string, string>> = {
    STYLE: await pageStyle('study/study.css'),
    STUDY: inScript(readFileSync(join(dir, studyReportName), 'utf8')),
    SCRIPT: inScript(await pageScript('study/main.ts')),
  };
  const shell = readFileSync(`${web}study/study.html`, 'utf8');
  return shell.replace(/\/\*([A-Z]+)\*\//g, (mark, name: string) => parts[name] ?? mark);
}
