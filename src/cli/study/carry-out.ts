/** Carries a study out as its options say: store, parts, progress, Ctrl-C. The same for every study. */
import { existsSync, readdirSync, rmSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { formatProblem } from '../../base/problem.ts';
import { onDisk } from '../../disk/on-disk.ts';
import { onStop } from '../../disk/stop-signals.ts';
import { Bench, RefusedTrial, Stopped } from '../../studies/bench/bench.ts';
import type { StoredLine } from '../../studies/bench/kept-lines.ts';
import type { Parts, Planned, Study } from '../../studies/study.ts';
import { exit } from '../exit.ts';
import { resumeWords } from '../options/again.ts';
import { Progress } from '../terminal/progress.ts';
import { heldBy, joinedParts } from './joined.ts';
import { isOwn, partLine, refuseEmptyPart } from './parts.ts';
import { shelf } from './scenarios.ts';
import { storeOf } from './store-of.ts';
import type { StudyOptions } from './study-options.ts';

/** The report; null where the study was stopped, or was a part and is told of. */
export async function carryOut<Plan extends Planned, Report>(
  study: Study<Plan, Report>,
  plan: Plan,
  options: StudyOptions,
): Promise<Report | null> {
  const { carryOut: whole, parts } = study;
  for (const warning of plan.warnings) process.stderr.write(`${formatProblem(warning)}\n`);
  if (options.part !== undefined && parts !== null) {
    await carryOutPart(parts, plan, options);
    return null;
  }
  const joined = await joinedParts(study, plan, options);
  const goesOn = joined === null || heldBy(parts, plan) !== null;
  return onBench(plan, options, { joined, offline: !goesOn }, (bench) => whole(plan, bench.run));
}

async function carryOutPart<Plan extends Planned>(
  { what, count, carryOut: some }: Parts<Plan>,
  plan: Plan,
  options: StudyOptions,
): Promise<void> {
  const part = options.part!;
  const all = count(plan);
  refuseEmptyPart(part, all, what);
  const begun = { joined: null, offline: false };
  const done = await onBench(plan, options, begun, (bench) => some(plan, bench.run, isOwn(part)));
  if (done !== null) process.stdout.write(partLine(part, done, all, what, options.out));
}

/** Runs `body` with a bench, heeding Ctrl-C; null where it was stopped. `joined`: what merged parts found. */
async function onBench<T>(
  { called, identity, expects = 0 }: Planned,
  options: StudyOptions,
  { joined, offline }: { readonly joined: readonly StoredLine[] | null; readonly offline: boolean },
  body: (bench: Bench) => Promise<T>,
): Promise<T | null> {
  const isNew = options.out !== undefined && isFree(options.out);
  const store = storeOf(identity, options, joined);
  const progress = new Progress(called, options.quiet === true);
  const bench = new Bench({
    workers: options.workers ?? availableParallelism(),
    ...(store === null ? {} : { store }),
    offline,
    typed: shelf().typed,
    onProgress: (done, wanted) => progress.at(done / Math.max(1, wanted, expects)),
  });
  const heedNoMore = onStop(() => bench.stop());
  try {
    const value = await body(bench);
    // A part keeps what it found, in whatever order: it is no study of its own.
    if (options.part === undefined) store?.settle(bench.used);
    return value;
  } catch (error) {
    progress.clear();
    // No call could go on with it, and the corrected one needs the place.
    if (error instanceof RefusedTrial && isNew) rmSync(options.out!, { recursive: true, force: true });
    if (!(error instanceof Stopped)) throw error;
    const kept =
      store === null
        ? 'Nothing was kept: give --out DIR to keep what is finished.'
        : `${store.size} finished trials are kept in ${options.out}; go on: ${resumeWords()}`;
    process.stderr.write(`Stopped. ${kept}\n`);
    process.exitCode = exit.stopped;
    return null;
  } finally {
    heedNoMore();
    progress.clear();
    await bench.close();
  }
}

/** Whether nothing lies there yet. */
function isFree(out: string): boolean {
  return !existsSync(out) || onDisk(out, () => readdirSync(out)).length === 0;
}
