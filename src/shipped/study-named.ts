/** The study that a word names: its file, or a scenario for one that the command line gives whole. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { BadInput } from '../base/problem.ts';
import { liesThere } from '../disk/lies-there.ts';
import { readShortText } from '../disk/read-file.ts';
import { home } from '../home.ts';
import type { Change } from '../scenario/scenario.ts';
import type { Files } from '../scenario/text/desk.ts';
import { listed, nearestWords } from '../scenario/text/nearest.ts';
import { askedOver } from '../studies/written/overlap.ts';
import { isStudy, readStudy } from '../studies/written/read-study.ts';
import { emptyStudy, type StudyFile, type StudyKind } from '../studies/written/study-file.ts';
import { scenarioFile, shippedScenarios } from './scenario-named.ts';

const studies = join(home, 'scenarios', 'studies');

/**
 * The study that a word names, with the changes of the command line behind its own and over those of its cases. `files`:
 * what is read again later, for standard input (`-`) can be read once.
 */
export function studyNamed(name: string, kind: StudyKind, set: readonly Change[], files: Files): StudyFile {
  const own = `${studies}/${name}.yaml`;
  const file = !/[/\\]|\.ya?ml$/.test(name) && existsSync(own) ? relative(process.cwd(), own) : null;
  const path = file ?? scenarioOrRefuse(name, kind);
  const study =
    file !== null || isStudyAt(path, files) ? readStudy(path, kind, files) : emptyStudy(kind, path);
  return {
    ...study,
    changes: [...study.changes, ...set],
    cases: study.cases.map((one) => askedOver(one, set)),
  };
}

function isStudyAt(path: string, files: Files): boolean {
  if (path === '-') return isStudy(files(path).text ?? '');
  return existsSync(path) && isStudy(readShortText(path).text);
}

/** Names of the studies of a kind that come with the project. */
function shippedStudies(kind: StudyKind): readonly string[] {
  return readdirSync(studies)
    .filter((file) => file.endsWith('.yaml'))
    .filter((file) => new RegExp(`^study: ${kind}$`, 'm').test(readFileSync(`${studies}/${file}`, 'utf8')))
    .map((file) => file.replace(/\.yaml$/, ''))
    .sort();
}

function scenarioOrRefuse(name: string, kind: StudyKind): string {
  const own = shippedStudies(kind);
  const scenarios = shippedScenarios();
  if (name === '-' || /[/\\]|\.ya?ml$/.test(name) || scenarios.includes(name) || liesThere(name))
    return scenarioFile(name);
  const near = nearestWords(name, [...own, ...scenarios]);
  throw new BadInput([
    {
      severity: 'error',
      found: `study ${name}`,
      expected: `a path to a file, a study of kind ${kind} (${listed(own)}), or one of the scenarios ${listed(scenarios)}`,
      mend: near.length === 0 ? 'name a file or one of these' : `did you mean ${listed(near)}?`,
    },
  ]);
}
