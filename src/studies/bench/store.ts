/**
 * Where the outcomes of a study are kept: one line of JSON per finished trial behind a head line that sums
 * up what the study is made of. Lines are only ever added, whole, so that a study that was killed has lost
 * nothing but the trials it was working on; a last line cut short is dropped. A study that reached its end
 * writes the store anew in the order of its trials, so that it does not tell who finished first.
 */
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
import { canonical } from '../canonical.ts';
import { type Identity, sumOf } from '../identity.ts';
import type { Done, OutcomeOf, Trial, TrialKind } from '../trials/trial.ts';
import { Outcomes } from './outcomes.ts';

export const storeName = 'trials.jsonl';

/** Of the layout of the file; one of another layout is refused. */
const format = 2;

/** The sum that names a trial: its kind, its scenario, its changes and what it asks. */
export function keyOf(trial: Trial): string {
  return sumOf(trial).slice(0, 32);
}

/** A trial as kept: which one it is, and of which kind. */
export interface Place {
  readonly kind: TrialKind;
  readonly key: string;
}

export class Store {
  readonly path: string;
  readonly head: string;
  readonly #outcomes: Outcomes;

  private constructor(path: string, head: string, outcomes: Outcomes) {
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
    const head = `${canonical({ buswake_study: format, sha256: sumOf(identity), ...identity })}\n`;
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
    return new Store(path, head, new Outcomes());
  }

  private static reopen(path: string, identity: Identity, head: string): Store {
    const { old, lines, length } = readStore(path);
    if (old.sha256 !== sumOf(identity)) throw new BadInput([changed(path, old, identity)]);
    truncateSync(path, length);
    return new Store(path, head, outcomesOf(lines));
  }

  get size(): number {
    return this.#outcomes.size;
  }

  get<K extends TrialKind>(kind: K, key: string): OutcomeOf<K> | undefined {
    return this.#outcomes.get(kind, key);
  }

  add<K extends TrialKind>(key: string, done: Done<K>): void {
    if (this.#outcomes.get(done.kind, key) !== undefined) return;
    this.#outcomes.set(key, done);
    appendFileSync(this.path, lineOf({ key, ...done }));
  }

  /** Rewrites the store in the order of `places`; what the study did not use in the end is left out. */
  settle(places: readonly Place[]): void {
    const once = new Map(places.map((place) => [place.key, place]));
    const lines = [...once.values()].flatMap(({ kind, key }) => {
      const outcome = this.#outcomes.get(kind, key);
      return outcome === undefined ? [] : [lineOf({ key, kind, outcome })];
    });
    clearLeftParts(this.path);
    const fresh = `${this.path}.${process.pid}.part`;
    writeFileSync(fresh, this.head + lines.join(''));
    renameSync(fresh, this.path);
  }

  /** Takes over outcomes that were found elsewhere. */
  addAll(lines: readonly StoredLine[]): void {
    for (const { key, ...done } of lines) this.add(key, done);
  }
}

/** What parts of a study found, all of them together; refuses what is missing and parts of another study. */
export function readParts(parts: readonly string[], identity: Identity): readonly StoredLine[] {
  const read = parts.map((dir) => ({ path: join(dir, storeName), ...readStore(join(dir, storeName)) }));
  const strangers = read.filter(({ old }) => old.sha256 !== sumOf(identity));
  if (strangers.length > 0)
    throw new BadInput(strangers.map(({ path, old }) => changed(path, old, identity)));
  return read.flatMap(({ lines }) => lines);
}

/** What the trials kept in a directory found, in their order. */
export function readOutcomes(dir: string): Outcomes {
  return outcomesOf(readStore(join(dir, storeName)).lines);
}

function outcomesOf(lines: readonly StoredLine[]): Outcomes {
  const outcomes = new Outcomes();
  for (const { key, ...done } of lines) outcomes.set(key, done);
  return outcomes;
}

/** One line: a trial by its sum, and what came out. */
export type StoredLine = Done & { readonly key: string };

interface Head extends Identity {
  readonly buswake_study: number;
  readonly sha256: string;
}

/** A store as it lies on disk, up to its last whole line. */
function readStore(path: string): {
  readonly old: Head;
  readonly lines: readonly StoredLine[];
  readonly length: number;
} {
  if (!existsSync(path)) {
    refuse(path, 'no such file', 'the trials of a study', 'name a directory that --out wrote');
  }
  const bytes = readFileSync(path);
  const length = bytes.lastIndexOf(0x0a) + 1;
  const [first = '', ...rest] = bytes.subarray(0, length).toString('utf8').split('\n').slice(0, -1);
  const old = parsed<Head>(first);
  if (old === null || old.buswake_study === undefined) {
    return refuse(
      path,
      'a file of another kind',
      'the trials of a study',
      'name a directory that --out wrote',
    );
  }
  if (old.buswake_study !== format) {
    return refuse(
      path,
      `trials in format ${old.buswake_study}`,
      `format ${format}, as this version writes it`,
      'start again with --force',
    );
  }
  const lines = rest.map((line, k) => {
    const read = parsed<StoredLine>(line);
    if (read !== null) return read;
    return refuse(
      `${path}:${k + 2}`,
      'a line that is not JSON',
      'one trial per line, as written',
      'the file was changed: start again with --force',
    );
  });
  return { old, lines, length };
}

function parsed<T>(line: string): T | null {
  try {
    return JSON.parse(line) as T;
  } catch {
    return null;
  }
}

function lineOf(line: Place & { readonly outcome: unknown }): string {
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
