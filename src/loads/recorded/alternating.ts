/** Signs in names that volts and amperes are those of an alternating current: their product is an apparent power. */
import { arePhases, isPowerFactor, wordsOf } from '../../tables/columns/column-names.ts';

/** What says so, `used` being the columns of current and voltage; null where nothing does. */
export function alternating(names: readonly string[], used: readonly string[]): string | null {
  const factor = names.find(isPowerFactor);
  if (factor !== undefined) return `beside ${factor}`;
  const rms = used.find((name) => wordsOf(name).some((word) => word === 'rms' || word === 'ac'));
  if (rms !== undefined) return `of ${rms}, by its name of the AC side`;
  const phases = used.filter((name) => arePhases([name]));
  return phases.length > 1 ? `of the phases ${phases.join(', ')}` : null;
}
