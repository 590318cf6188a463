/** A mishap to a kept run or study, and what is wrong with the way it is read then, if anything. */
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { BadInput } from '../../src/base/problem.ts';
import { readBundle } from '../../src/bundle/read.ts';
import { refuseChangedStudy } from '../../src/cli/disk/study-whole.ts';
import { readStore, type StoredLine, storeName } from '../../src/studies/bench/kept-lines.ts';
import { Draw } from '../random-cabinets/draw.ts';
import { type Timed, type Tried, timed } from '../series/tried.ts';
import type { Kept } from './kept.ts';
import { type Changed, mishap } from './mishaps.ts';

/** `unchanged`: what was exchanged was alike; `resumed`: some trials of a store are whole, and would be gone on from. */
export type Ending = 'refused' | 'unchanged' | 'resumed';

/** Number `number` of the series `seed`. The files are as they were afterwards. */
export function triedMishap(kept: Kept, seed: number, number: number): Timed<Ending> {
  const changed = mishap(kept.files, new Draw(seed, number));
  const same = [...changed].every(([name, bytes]) => bytes?.equals(kept.files.get(name)!) === true);
  put(kept, changed);
  try {
    return timed(() => (same ? { ending: 'unchanged', why: '' } : look(kept, changed)));
  } finally {
    put(kept, new Map([...changed.keys()].map((name) => [name, kept.files.get(name)!])));
  }
}

function put({ dir }: Kept, changed: Changed): void {
  for (const [name, bytes] of changed)
    if (bytes === null) rmSync(join(dir, name));
    else writeFileSync(join(dir, name), bytes);
}

function look(kept: Kept, changed: Changed): Tried<Ending> {
  const names = [...changed.keys()].join(' and ');
  const whole = refused(() => (kept.kind === 'run' ? readBundle(kept.dir) : refuseChangedStudy(kept.dir)));
  if (whole !== 'refused') return { ending: 'wrong', why: `${names} changed: ${whole}` };
  return changed.has(storeName) ? resumed(kept, names) : { ending: 'refused', why: '' };
}

/** What a resumed study would go on from: trials as they were kept, or none. */
function resumed({ dir, files }: Kept, names: string): Tried<Ending> {
  const path = join(dir, storeName);
  let lines: readonly StoredLine[] = [];
  const read = refused(() => {
    lines = readStore(path).lines;
  });
  if (read === 'refused') return { ending: 'refused', why: '' };
  if (read !== 'accepted') return { ending: 'wrong', why: `${names} changed: ${read}` };
  const before = new Map(
    files
      .get(storeName)!
      .toString('utf8')
      .split('\n')
      .filter((line) => line.startsWith('{"sum"'))
      .map((line) => JSON.parse(line) as StoredLine)
      .map((line) => [line.key, line.outcome]),
  );
  const other = lines.find(({ key, outcome }) => !isDeepStrictEqual(outcome, before.get(key)));
  return other === undefined
    ? { ending: 'resumed', why: '' }
    : { ending: 'wrong', why: `${names} changed: trial ${other.key} was read otherwise` };
}

/** `refused` by name, `accepted`, or the error that it was not. */
function refused(read: () => unknown): string {
  try {
    read();
    return 'accepted';
  } catch (error) {
    if (!(error instanceof BadInput)) return error instanceof Error ? (error.stack ?? '') : String(error);
    return error.problems.every(({ file, mend }) => file !== undefined && mend !== '')
      ? 'refused'
      : `refused without a place or a way out: ${error.message}`;
  }
}
