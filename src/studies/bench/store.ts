/**
 * Where the outcomes of a study are kept: one line of JSON per finished trial behind a head line that sums
 * up what the study is made of. Lines are only ever added, whole, so that a study that was killed has lost
 * nothing but the trials it was working on; a last line cut short is dropped. A study that reached its end
 * writes the store anew in the order of its trials, so that it does not tell who finished first.
 */
import { appendFileSync, existsSync, truncateSync } from 'node:fs';
import { join } from 'node:path';
import { onDisk } from '../../disk/on-disk.ts';
import { writeWhole } from '../../disk/write-file.ts';
import { canonical } from '../canonical.ts';
import { type Identity, sumOf } from '../identity.ts';
import type { Place } from '../trials/key.ts';
import type { Done, OutcomeOf, TrialKind } from '../trials/trial.ts';
import { format, lineOf, outcomesOf, readStore, refuse, type StoredLine, storeName } from './kept-lines.ts';
import { Outcomes } from './outcomes.ts';
import { refuseChanged } from './same-study.ts';

export class Store {
  readonly path: string;
  readonly head: string;
  /** Lines that were not as they had been written, when it was gone on with: their trials are run again. */
  readonly spoilt: number;
  readonly #outcomes: Outcomes;

  private constructor(path: string, head: string, outcomes: Outcomes, spoilt = 0) {
    this.path = path;
    this.head = head;
    this.spoilt = spoilt;
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
    writeWhole(path, head);
    return new Store(path, head, new Outcomes());
  }

  private static reopen(path: string, identity: Identity, head: string): Store {
    const { old, lines, spoilt, length } = readStore(path);
    refuseChanged([{ path, old }], identity);
    if (spoilt.length === 0) onDisk(path, () => truncateSync(path, length));
    else writeWhole(path, head + lines.map(lineOf).join(''));
    return new Store(path, head, outcomesOf(lines), spoilt.length);
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
    onDisk(this.path, () => appendFileSync(this.path, lineOf({ key, ...done })));
  }

  /** Rewrites the store in the order of `places`; what the study did not use in the end is left out. */
  settle(places: readonly Place[]): void {
    const once = new Map(places.map((place) => [place.key, place]));
    const lines = [...once.values()].flatMap(({ kind, key }) => {
      const outcome = this.#outcomes.get(kind, key);
      return outcome === undefined ? [] : [lineOf({ key, kind, outcome })];
    });
    writeWhole(this.path, this.head + lines.join(''));
  }

  /** Takes over outcomes that were found elsewhere. */
  addAll(lines: readonly StoredLine[]): void {
    for (const { key, ...done } of lines) this.add(key, done);
  }
}
