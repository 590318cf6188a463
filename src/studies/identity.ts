/** What a study is made of: the same identity, the same trials with the same outcomes. */
import { createHash } from 'node:crypto';
import type { InputFile } from '../scenario/scenario.ts';
import { canonical } from './canonical.ts';

export interface Identity {
  readonly tool_version: string;
  /** The study itself: what is varied, sampled, crossed, measured. */
  readonly study: unknown;
  readonly inputs: readonly InputFile[];
}

export function sumOf(value: unknown): string {
  return createHash('sha256').update(canonical(value)).digest('hex');
}
