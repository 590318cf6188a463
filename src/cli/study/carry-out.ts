/** Carries a study out as its options say: store, parts, progress, Ctrl-C. The same for every study. */
import { existsSync, readdirSync, rmSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { BadInput, formatProblem } from '../../base/problem.ts';
import { claim, claimName } from '../../disk/claim.ts';
import { onDisk } from '../../disk/on-disk.ts';
import { dropSumList } from '../../disk/sum-list.ts';
import { Bench, Stopped } from '../../studies/bench/bench.ts';
import { readParts, type StoredLine, storeName } from '../../studies/bench/kept-lines.ts';
import { Store } from '../../studies/bench/store.ts';
import type { Identity } from '../../studies/identity.ts';
import type { Parts, Planned, Study } from '../../studies/study.ts';
import { writeStudyInputs } from '../disk/study-inputs.ts';
import { exit } from '../exit.ts';
import { Progress } from '../terminal/progress.ts';
import { isOwn, partLine, refuseEmptyPart } from './parts.ts';
import { keptInputs, shelf } from './scenarios.ts';
import type { StudyOptions } from './study-options.ts';

/** The report; null where the study was stopped, or was a part and is told of. */
export async function carryOut<Plan extends Planned, Report>(
  { carryOut: whole, parts }: Study<Plan, Report>,
  plan: Plan,
  options: StudyOptions,
): Promise<Report | null> {
  for (const warning of plan.warnings) process.stderr.write(`${formatProblem(warning)}\n`);
  if (options.part !== undefined && parts !== null) {
    await carryOutPart(parts, plan, options);
    return null;
  }
  const held = options.merge === undefined ? null : (parts?.held(plan) ?? null);
  return onBench(plan, options, held === null, async (bench) => {
    if (held !== null) bench.refuseMissing(held);
    return whole(plan, bench.run);
  });
}

async function carryOutPart<Plan extends Planned>(
  { what, count, carryOut: some }: Parts<Plan>,
  plan: Plan,
  options: StudyOptions,
): Promise<void> {
  const part = options.part!;
  const all = count(plan);
  refuseEmptyPart(part, all, what);
  const done = await onBench(plan, options, true, (bench) => some(plan, bench.run, isOwn(part)));
  if (done !== null) process.stdout.write(partLine(part, done, all, what, options.out));
}

/** Runs `body` with a bench, heeding Ctrl-C; null where it was stopped. `merged`: parts that are merged hold all. */
async function onBench<T>(
  { called, identity, expects = 0 }: Planned,
  options: StudyOptions,
  merged: boolean,
  body: (bench: Bench) => Promise<T>,
): Promise<T | null> {
  const store = storeOf(identity, options);
  const progress = new Progress(called, options.quiet === true);
  const bench = new Bench({
    workers: options.workers ?? availableParallelism(),
    ...(store === null ? {} : { store }),
    offline: options.merge !== undefined && merged,
    typed: shelf.typed,
    onProgress: (done, wanted) => progress.at(done / Math.max(1, wanted, expects)),
  });
  const interrupt = (): void => bench.stop();
  process.on('SIGINT', interrupt);
  process.on('SIGTERM', interrupt);
  try {
    const value = await body(bench);
    // A part keeps what it found, in whatever order: it is no study of its own.
    if (options.part === undefined) store?.settle(bench.used);
    return value;
  } catch (error) {
    if (!(error instanceof Stopped)) throw error;
    progress.clear();
    const kept =
      store === null
        ? 'Nothing was kept: give --out DIR to keep what is finished.'
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

/** Where trials are kept, parts that are merged joined in, and the inputs beside them; null where nothing is kept. */
function storeOf(identity: Identity, options: StudyOptions): Store | null {
  const joined = options.merge === undefined ? null : readParts(options.merge, identity);
  const { out } = options;
  if (out === undefined) return null;
  const isNew = !existsSync(out);
  if (!isNew) refuseForeign(out);
  try {
    return begunStore(out, identity, options, joined);
  } catch (error) {
    // A place that was made for it, and where it could not begin, is no study to go on with.
    if (isNew) rmSync(out, { recursive: true, force: true });
    throw error;
  }
}

/** A folder that holds other things than a study is nobody's to write to, with --force neither. */
function refuseForeign(out: string): void {
  const names = onDisk(out, () => readdirSync(out));
  const others = names.filter((name) => name !== claimName && !name.endsWith('.part'));
  if (names.includes(storeName) || others.length === 0) return;
  throw new BadInput([
    {
      severity: 'error',
      file: out,
      found: `a folder with other files in it: ${others.slice(0, 3).join(', ')}`,
      expected: 'a name that is free, an empty folder, or a study',
      mend: 'choose another name; what is no study is never written over',
    },
  ]);
}

function begunStore(
  out: string,
  identity: Identity,
  { resume, force, merge }: StudyOptions,
  joined: readonly StoredLine[] | null,
): Store {
  claim(out);
  // Parts are joined into a place where some lie already as well: a merge that missed one is said again.
  const goOn = resume === true || merge !== undefined;
  const store = Store.open(out, identity, force === true ? 'replace' : goOn ? 'resume' : 'new');
  // What lies there is being written again: its sums are listed when it has come to its end.
  dropSumList(out);
  if (joined !== null) store.addAll(joined);
  // Before a trial is run: what is written to the files meanwhile is no part of the study.
  writeStudyInputs(out, keptInputs());
  return store;
}
