/** Glyph and word of each way a limit can come out: told by shape and word, not by colour. */
import type { FindingVerdict } from '../../src/analysis/judge/report.ts';

export const marks: Readonly<Record<FindingVerdict, readonly [glyph: string, word: string]>> = {
  fail: ['✕', 'fail'],
  pass: ['✓', 'pass'],
  waived: ['≈', 'waived'],
  inconclusive: ['?', 'inconclusive'],
  not_applicable: ['–', 'not applicable'],
};

/** In the order in which they are counted. */
export const marked: readonly FindingVerdict[] = ['fail', 'pass', 'waived', 'inconclusive', 'not_applicable'];
