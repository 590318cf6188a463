/**
 * Whether a cabinet oscillates: a device swings by itself, sustained, at any frequency, by more than this part of
 * its rating. Beside the limits, which a scenario may change.
 */
import type { Case } from '../record/case.ts';
import { worst } from '../record/case.ts';
import { deviceSwings } from './judged-swings.ts';
import { swingWords } from './swing-words.ts';

const oscillates_ratio = 0.025;

/** The largest such swing in words; null where there is none. */
export function oscillationOf(c: Case): string | null {
  const own = deviceSwings(c).filter(({ cause, size }) => cause === 'own' && size > oscillates_ratio);
  const largest = worst(own, ({ size }) => size);
  return largest === null ? null : swingWords(largest, own, c.result.spans);
}
