/**
 * What a thread of the pool does: a few trials per call, in their order. Bad input comes back as data, as errors lose
 * their type on the way.
 */
import { workerData } from 'piscina';
import { BadInput, type Problem } from '../../base/problem.ts';
import { DiskSource } from '../../bundle/disk-source.ts';
import type { Done, Trial } from '../trials/trial.ts';
import { type FileText, Shelf } from './shelf.ts';
import { Workbench } from './workbench.ts';

export type Worked =
  | { readonly kind: 'done'; readonly done: readonly Done[] }
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] };

const typed: FileText | null = workerData;
const bench = new Workbench(new Shelf(new DiskSource(), typed));

export function work(trials: readonly Trial[]): Worked {
  try {
    return { kind: 'done', done: trials.map((trial) => bench.carryOut(trial)) };
  } catch (error) {
    if (error instanceof BadInput) return { kind: 'problems', problems: error.problems };
    throw error;
  }
}
