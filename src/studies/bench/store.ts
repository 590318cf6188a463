/**
 * Where the outcomes of a study are kept: one line of JSON per finished trial behind a head line that sums
 * up what the study is made of. Lines are only ever added, whole, so that a study that was killed has lost
 * nothing but the trials it was working on; a last line cut short is dropped. A study that reached its end
 * writes the store anew in the order of its trials, so that it does not tell who finished first.
 */
import { createHash } from 'node:crypto';
import {
  appendFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { clearLeftParts } from '../../base/left-parts.ts';
import { BadInput, type Problem } from '../../base/problem.ts';
import type { InputFile } from '../../scenario/scenario.ts';
import { canonical } from '../canonical.ts';
import type { Trial, TrialOutcome } from '../trial.ts';

/** What a study is made of: the same identity, the same trials with the same outcomes. */
export interface Identity {
  readonly tool_version: string;
  /** The study itself: what is varied, sampled, crossed. */
  readonly study: unknown;
  readonly inputs: readonly InputFile[];
}

export const storeName = 'trials.jsonl';

export function sumOf(identity: Identity): string {
  return createHash('sha256').update(canonical(identity)).digest('hex');
}

export function keyOf(trial: Trial): string {
  return createHash('sha256')
    .update(canonical([trial.scenario, trial.changes]))
    .digest('hex')
    .slice(0, 32);
}

interface StoredLine {
  readonly key: string;
  readonly outcome: TrialOutcome;
}

export class Store {
  readonly path: string;
  readonly head: string;
  readonly #outcomes: Map<string, TrialOutcome>;

  private constructor(path: string, head: string, outcomes: Map<string, TrialOutcome>) {
    this.path = path;
    this.head = head;
    this.#outcomes = outcomes;
  }

  /**
   * Opens the store of a study in a directory. `mode`: `new` refuses a store that is there already, `resume`
   * goes on with one and refuses one of another study, `replace` begins afresh.
   */
  static open(dir: string, identity: Identity, mode: 'new' | 'resume' | 'replace'): Store {
    const path = join(dir, storeName);
    const head = `${canonical({ buswake_study: 1, sha256: sumOf(identity), ...identity })}\n`;
    if (existsSync(path) && mode !== 'replace') {
      if (mode === 'new') {
        refuse(
          path,
          'a study begun there already',
          'an empty place, or a wish to go on',
          'give --resume to continue it, --force to start again',
        );
      }
      return Store.reopen(path, identity, head);
    }
    mkdirSync(dir, { recursive: true });
    writeFileSync(path, head);
    return new Store(path, head, new Map());
  }

  private static reopen(path: string, identity: Identity, head: string): Store {
    const { old, outcomes, length } = readStore(path);
    if (old.sha256 !== sumOf(identity)) throw new BadInput([changed(path, old, identity)]);
    truncateSync(path, length);
    return new Store(path, head, outcomes);
  }

  get size(): number {
    return this.#outcomes.size;
  }

  get(key: string): TrialOutcome | undefined {
    return this.#outcomes.get(key);
  }

  add(key: string, outcome: TrialOutcome): void {
    if (this.#outcomes.has(key)) return;
    this.#outcomes.set(key, outcome);
    appendFileSync(this.path, lineOf({ key, outcome }));
  }

  /** Rewrites the store in the order of `keys`; what the study did not use in the end is left out. */
  settle(keys: readonly string[]): void {
    const lines = [...new Set(keys)].flatMap((key) => {
      const outcome = this.#outcomes.get(key);
      return outcome === undefined ? [] : [lineOf({ key, outcome })];
    });
    clearLeftParts(this.path);
    const fresh = `${this.path}.${process.pid}.part`;
    writeFileSync(fresh, this.head + lines.join(''));
    renameSync(fresh, this.path);
  }

  /** Takes over outcomes that were found elsewhere. */
  addAll(outcomes: ReadonlyMap<string, TrialOutcome>): void {
    for (const [key, outcome] of outcomes) this.add(key, outcome);
  }
}

/** What parts of a study found, all of them together; refuses what is missing and parts of another study. */
export function readParts(parts: readonly string[], identity: Identity): ReadonlyMap<string, TrialOutcome> {
  const read = parts.map((dir) => ({ path: join(dir, storeName), ...readStore(join(dir, storeName)) }));
  const strangers = read.filter(({ old }) => old.sha256 !== sumOf(identity));
  if (strangers.length > 0)
    throw new BadInput(strangers.map(({ path, old }) => changed(path, old, identity)));
  return new Map(read.flatMap(({ outcomes }) => [...outcomes]));
}

/** What the trials kept in a directory found, by key, in their order. */
export function readOutcomes(dir: string): ReadonlyMap<string, TrialOutcome> {
  return readStore(join(dir, storeName)).outcomes;
}

interface Head extends Identity {
  readonly buswake_study: number;
  readonly sha256: string;
}

/** A store as it lies on disk, up to its last whole line. */
function readStore(path: string): {
  readonly old: Head;
  readonly outcomes: Map<string, TrialOutcome>;
  readonly length: number;
} {
  if (!existsSync(path)) {
    refuse(path, 'no such file', 'the trials of a study', 'name a directory that --out wrote');
  }
  const bytes = readFileSync(path);
  const length = bytes.lastIndexOf(0x0a) + 1;
  const [first = '', ...lines] = bytes.subarray(0, length).toString('utf8').split('\n').slice(0, -1);
  const old = parsed<Head>(first);
  if (old === null || old.buswake_study !== 1) {
    return refuse(
      path,
      'a file of another kind',
      'the trials of a study',
      'name a directory that --out wrote',
    );
  }
  const outcomes = new Map<string, TrialOutcome>();
  for (const [k, line] of lines.entries()) {
    const read = parsed<StoredLine>(line);
    if (read === null) {
      return refuse(
        `${path}:${k + 2}`,
        'a line that is not JSON',
        'one trial per line, as written',
        'the file was changed: start again with --force',
      );
    }
    outcomes.set(read.key, read.outcome);
  }
  return { old, outcomes, length };
}

function parsed<T>(line: string): T | null {
  try {
    return JSON.parse(line) as T;
  } catch {
    return null;
  }
}

function lineOf(line: StoredLine): string {
  return `${JSON.stringify(line)}\n`;
}

/** Two studies that are not the same: both sums, and what differs. */
function changed(path: string, old: Head, now: Identity): Problem {
  const before = new Map(old.inputs.map(({ path: file, sha256 }) => [file, sha256]));
  const files = now.inputs.filter(({ path: file, sha256 }) => before.get(file) !== sha256);
  const gone = old.inputs.filter(({ path: file }) => !now.inputs.some((input) => input.path === file));
  const what = [
    ...files.map(
      ({ path: file, sha256 }) =>
        `${file} (${(before.get(file) ?? 'not read').slice(0, 12)} then, ${sha256.slice(0, 12)} now)`,
    ),
    ...gone.map(({ path: file }) => `${file} (no longer read)`),
    ...(canonical(old.study) === canonical(now.study) ? [] : ['the study itself']),
    ...(old.tool_version === now.tool_version
      ? []
      : [`buswake ${old.tool_version}, now ${now.tool_version}`]),
  ];
  return {
    severity: 'error',
    file: path,
    found: `a study with sum ${old.sha256}`,
    expected: `the study requested now, with sum ${sumOf(now)}; changed: ${what.join(', ')}`,
    mend: 'restore the inputs, or start again with --force',
  };
}

function refuse(file: string, found: string, expected: string, mend: string): never {
  throw new BadInput([{ severity: 'error', file, found, expected, mend }]);
}
