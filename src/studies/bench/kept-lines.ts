/** A store as it lies on disk: its head line, then one line for each trial. */
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { BadInput } from '../../base/problem.ts';
import { readBytes } from '../../disk/read-file.ts';
import type { Identity } from '../identity.ts';
import type { Place } from '../trials/key.ts';
import type { Done } from '../trials/trial.ts';
import { Outcomes } from './outcomes.ts';
import { type Head, refuseChanged } from './same-study.ts';

export const storeName = 'trials.jsonl';

/** Of the layout of the file; one of another layout is refused. */
export const format = 4;

/** What parts of a study found, all of them together; refuses what is missing and parts of another study. */
export function readParts(parts: readonly string[], identity: Identity): readonly StoredLine[] {
  const read = parts.map((dir) => ({ path: join(dir, storeName), ...readStore(join(dir, storeName)) }));
  refuseChanged(read, identity);
  for (const { path, spoilt } of read) refuseSpoilt(path, spoilt);
  return read.flatMap(({ lines }) => lines);
}

/** What the trials kept in a directory found, in their order. */
export function readOutcomes(dir: string): Outcomes {
  const path = join(dir, storeName);
  const { lines, spoilt } = readStore(path);
  refuseSpoilt(path, spoilt);
  return outcomesOf(lines);
}

export function outcomesOf(lines: readonly StoredLine[]): Outcomes {
  const outcomes = new Outcomes();
  for (const { key, ...done } of lines) outcomes.set(key, done);
  return outcomes;
}

/** One line: a trial by its sum, and what came out. */
export type StoredLine = Done & { readonly key: string };

/** Whoever reads a store to its end takes none that was changed; who goes on with it runs those trials again. */
function refuseSpoilt(path: string, spoilt: readonly number[]): void {
  const [first] = spoilt;
  if (first === undefined) return;
  refuse(
    `${path}:${first}`,
    'a line that does not match its checksum',
    'one trial per line, as written',
    'carry out the study again with --out DIR --resume: trials whose lines are whole are not run again',
  );
}

/** A store as it lies on disk, up to its last whole line. `spoilt`: numbers of the lines that are not as they were written. */
export function readStore(path: string): {
  readonly old: Head;
  readonly lines: readonly StoredLine[];
  readonly spoilt: readonly number[];
  readonly length: number;
} {
  if (!existsSync(path)) {
    refuse(path, 'no such file', 'the trials of a study', 'name a directory that --out wrote');
  }
  const bytes = readBytes(path);
  const length = bytes.lastIndexOf(0x0a) + 1;
  const [first = '', ...rest] = bytes.subarray(0, length).toString('utf8').split('\n').slice(0, -1);
  const old = parsed<Head>(first);
  if (old === null || old.buswake_study === undefined) {
    return refuse(
      path,
      bytes.length === 0 ? 'an empty file' : 'a file of another kind',
      'the trials of a study',
      'name a directory that --out wrote, or start the study again with --force',
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
  const read = rest.map(lineFrom);
  const lines = read.filter((line) => line !== null);
  const spoilt = read.flatMap((line, k) => (line === null ? [k + 2] : []));
  return { old, lines, spoilt, length };
}

function parsed<T>(line: string): T | null {
  try {
    return JSON.parse(line) as T;
  } catch {
    return null;
  }
}

/** A line begins with the sum of what follows, so that one in which anything was changed is recognised. */
export function lineOf(line: Place & { readonly outcome: unknown }): string {
  const rest = JSON.stringify(line).slice(1);
  return `{"sum":"${sumOfLine(rest)}",${rest}\n`;
}

function sumOfLine(rest: string): string {
  return createHash('sha256').update(rest).digest('hex');
}

/** What a line says; null where it is not as it was written. */
function lineFrom(text: string): StoredLine | null {
  const [, sum, rest] = /^\{"sum":"([0-9a-f]{64})",(.*)$/s.exec(text) ?? [];
  return rest !== undefined && sum === sumOfLine(rest) ? parsed<StoredLine>(`{${rest}`) : null;
}

export function refuse(file: string, found: string, expected: string, mend: string): never {
  throw new BadInput([{ severity: 'error', file, found, expected, mend }]);
}
