/** Options that every study takes, and where it begins: its file or a scenario, its bench, its store. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join, relative } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import { BadInput } from '../../base/problem.ts';
import { home } from '../../home.ts';
import type { Change, InputFile } from '../../scenario/scenario.ts';
import { listed, nearestWords } from '../../scenario/text/nearest.ts';
import { Bench, Stopped } from '../../studies/bench/bench.ts';
import { Shelf } from '../../studies/bench/run-trial.ts';
import { type Identity, readParts, Store } from '../../studies/bench/store.ts';
import { filesOf, type StudyContext } from '../../studies/context.ts';
import { emptyStudy, isStudy, readStudy, type StudyFile, type StudyKind } from '../../studies/study-file.ts';
import { toolVersion } from '../../version.ts';
import { readTextFile } from '../disk/files.ts';
import { exit } from '../exit.ts';
import { Progress } from '../terminal/progress.ts';
import { addPartOptions, type PartOptions, refusePartsWithoutOut } from './parts.ts';
import { scenarioFile, shippedScenarios } from './scenario-named.ts';
import { setOption } from './set-option.ts';

export interface StudyOptions extends PartOptions {
  readonly set: readonly Change[];
  readonly out?: string;
  readonly resume?: boolean;
  readonly force?: boolean;
  readonly workers?: number;
  readonly json?: boolean;
  readonly quiet?: boolean;
  readonly color: boolean;
}

const studies = join(home, 'scenarios', 'studies');

export function addStudyOptions(command: Command): Command {
  return addPartOptions(command)
    .argument('<study>', 'file of a study, the name of one in scenarios/studies/, or a scenario')
    .addOption(setOption())
    .option('-o, --out <dir>', 'keep trials and report there; required to continue after a stop')
    .option('--resume', 'continue the study kept in that directory')
    .option('--force', 'start again and overwrite what is kept there')
    .option('--workers <n>', 'threads; all cores by default', wholeAboveZero)
    .option('-q, --quiet', 'print one line')
    .option('--json', 'print one JSON document')
    .option('--no-color', 'no colour');
}

export function wholeAboveZero(word: string): number {
  if (!/^[1-9]\d*$/.test(word)) throw new InvalidArgumentError('write a whole number above 0.');
  return Number(word);
}

/** The study that a word names, with the changes of the command line behind its own. */
export function studyNamed(name: string, kind: StudyKind, set: readonly Change[]): StudyFile {
  const own = `${studies}/${name}.yaml`;
  const file = !/[/\\]|\.ya?ml$/.test(name) && existsSync(own) ? relative(process.cwd(), own) : null;
  const path = file ?? scenarioOrRefuse(name, kind);
  const study =
    file !== null || (existsSync(path) && isStudy(readFileSync(path, 'utf8')))
      ? readStudy(path, kind, readTextFile)
      : emptyStudy(kind, path);
  return { ...study, changes: [...study.changes, ...set] };
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
  if (/[/\\]|\.ya?ml$/.test(name) || scenarios.includes(name)) return scenarioFile(name);
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

export interface Session {
  readonly context: StudyContext;
  readonly bench: Bench;
  readonly store: Store | null;
}

export interface SessionOptions {
  /** What was merged need not be all: the study finds out itself, and simulates the rest. */
  readonly online?: boolean;
  /** What makes the study the one it is, beside its files. */
  readonly identity?: unknown;
}

/** Runs `body` with a bench, heeding Ctrl-C; null where it was stopped. */
export async function withBench<T>(
  study: StudyFile,
  options: StudyOptions,
  more: SessionOptions,
  body: (session: Session) => Promise<T>,
): Promise<T | null> {
  refusePartsWithoutOut(options);
  const { part, merge } = options;
  const shelf = new Shelf();
  const identity: Identity = {
    tool_version: toolVersion,
    study: more.identity ?? plainStudy(study),
    inputs: inputsOf(study, shelf),
  };
  // Parts are joined into a place where some lie already as well: a merge that missed one is said again.
  const goOn = options.resume === true || merge !== undefined;
  const mode = options.force === true ? 'replace' : goOn ? 'resume' : 'new';
  if (options.resume === true && options.out === undefined) refuseResume();
  const joined = merge === undefined ? null : readParts(merge, identity);
  const store = options.out === undefined ? null : Store.open(options.out, identity, mode);
  if (joined !== null) store?.addAll(joined);
  const progress = new Progress(study.id, options.quiet === true);
  const bench = new Bench({
    workers: options.workers ?? availableParallelism(),
    ...(store === null ? {} : { store }),
    offline: merge !== undefined && more.online !== true,
    onProgress: (done, wanted) => progress.at(wanted === 0 ? 1 : done / wanted),
  });
  const interrupt = (): void => bench.stop();
  process.on('SIGINT', interrupt);
  process.on('SIGTERM', interrupt);
  try {
    const value = await body({
      context: { read: (trial) => shelf.read(trial), run: bench.run },
      bench,
      store,
    });
    // A part keeps what it found, in whatever order: it is no study of its own.
    if (part === undefined) store?.settle(bench.used);
    return value;
  } catch (error) {
    if (!(error instanceof Stopped)) throw error;
    progress.clear();
    const kept =
      store === null
        ? 'Nothing was kept: say --out DIR to keep what is finished.'
        : `${store.size} finished trials are kept in ${options.out}; go on with --resume.`;
    process.stderr.write(`Stopped. ${kept}\n`);
    process.exitCode = exit.stopped;
    return null;
  } finally {
    process.off('SIGINT', interrupt);
    process.off('SIGTERM', interrupt);
    progress.clear();
    await bench.close();
  }
}

function plainStudy(study: StudyFile): unknown {
  return { ...study, words: Object.fromEntries(study.words), inputs: [] };
}

/** Every file that the study's scenarios are made of. */
function inputsOf(study: StudyFile, shelf: Shelf): readonly InputFile[] {
  const scenarios = new Set([study.scenario, ...study.cases.flatMap(({ scenario }) => scenario ?? [])]);
  return filesOf([
    study.inputs,
    ...[...scenarios].map((scenario) => shelf.read({ scenario, changes: [] }).scenario.inputs),
  ]);
}

function refuseResume(): never {
  throw new BadInput([
    {
      severity: 'error',
      found: '--resume without --out',
      expected: 'the directory of the study to go on with',
      mend: 'add --out DIR',
    },
  ]);
}
