/** Makes the page of a kept study: one HTML file with its report inside, which opens offline. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { BadInput } from '../../base/problem.ts';
import { home } from '../../home.ts';
import { studyReportName } from '../disk/study-files.ts';
import { inScript, pageScript, pageStyle } from './page.ts';

const web = join(home, 'web/');

export function isStudyDir(dir: string): boolean {
  return existsSync(join(dir, studyReportName));
}

/** Kinds of study that have a page. */
const drawn: readonly unknown[] = ['size', 'rating', 'matrix', 'spread', 'gains', 'response'];

/** Throws BadInput where the study is of a kind without a page. */
export async function makeStudyPage(dir: string): Promise<string> {
  const path = join(dir, studyReportName);
  const report = readFileSync(path, 'utf8');
  refuseUndrawn(path, JSON.parse(report));
  const parts: Readonly<Record<string, string>> = {
    STYLE: await pageStyle('study/study.css'),
    STUDY: inScript(report),
    SCRIPT: inScript(await pageScript('study/main.ts')),
  };
  const shell = readFileSync(`${web}study/study.html`, 'utf8');
  return shell.replace(/\/\*([A-Z]+)\*\//g, (mark, name: string) => parts[name] ?? mark);
}

function refuseUndrawn(file: string, { kind }: { readonly kind?: unknown }): void {
  if (drawn.includes(kind)) return;
  throw new BadInput([
    {
      severity: 'error',
      file,
      found: 'a study without a page: a fit, or tests of the share loop',
      expected: `a study of kind ${drawn.join(', ')}`,
      mend: `read ${file} itself, or the text that the command prints`,
    },
  ]);
}
