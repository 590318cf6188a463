/** What a matrix comes to: how it ends. */
import { type End, endOf } from '../end.ts';
import type { MatrixReport } from './report.ts';

/** It passes where every cell does, with conditions or without. */
export function matrixEnd({ states, passed, runs }: MatrixReport): End {
  return endOf(states, passed === runs);
}
