/** Reads the project's own files, with pieces of text swapped: every bad input of the tests is one swap away from a good one. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { BadInput } from '../../src/base/problem.ts';
import { type ReadOptions, type ReadScenario, readScenario } from '../../src/scenario/read.ts';

/** File, text in it, text instead. */
export type Swap = readonly [file: string, from: string, to: string];

const root = new URL('../../', import.meta.url).pathname;

/** Documents that some test has read before, by path and sum: files are read hundreds of times, and parsing is most of it. */
const trees: NonNullable<ReadOptions['trees']> = new Map();

export function readShipped(
  file: string,
  swaps: readonly Swap[] = [],
  options: Omit<ReadOptions, 'files'> = {},
): ReadScenario {
  const files: ReadOptions['files'] = (path) => {
    let text = readFileSync(`${root}${path}`, 'utf8');
    for (const [target, from, to] of swaps) {
      if (target !== path) continue;
      if (!text.includes(from)) throw new Error(`the test's swap does not fit: ${path} has no ${from}`);
      text = text.replace(from, to);
    }
    return { text, sha256: createHash('sha256').update(text).digest('hex') };
  };
  return readScenario(file, { files, trees, ...options });
}

/** The whole message of a bad input. */
export function messageOf(
  swaps: readonly Swap[],
  options: Omit<ReadOptions, 'files'> = {},
  file = 'scenarios/pulse-train.yaml',
): string {
  try {
    readShipped(file, swaps, options);
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
  throw new Error('nothing was refused');
}
