/** Recorded currents against time–current curves, in words. */
import type { GuardedUnit, Protection } from '../protection/protection.ts';
import { numberText } from './number-text.ts';

export const noProtection = 'No protection: the scenario gives no time–current curve (key protection).';

export const noClearing = 'nuisance trips alone: no clearing of faults';

export function nearestWords({ unit, protection, peak_A, rating_A, nearest }: GuardedUnit): string {
  const of = `${unit} behind ${protection} of ${numberText(rating_A, 'A')}, peak ${numberText(peak_A, 'A')}`;
  if (nearest === null) return `${of}: never up to the lowest current of the curve`;
  const { counted, current_A, length_s, allowed_s } = nearest;
  const how = counted === 'rms' ? 'RMS (thermal)' : 'and more throughout (magnetic)';
  return `${of}: ${numberText(current_A, 'A')} ${how} for ${numberText(length_s, 's')} of ${numberText(allowed_s, 's')} allowed`;
}

/** A sentence a unit, the nearest to its curve first. */
export function protectionLines({ units }: Protection): string[] {
  const used = ({ nearest }: GuardedUnit): number => nearest?.used_ratio ?? 0;
  return [...units]
    .sort((a, b) => used(b) - used(a))
    .map((one) => {
      const margin =
        one.nearest === null
          ? ''
          : `, ${numberText(one.nearest.used_ratio, 'ratio', 3)} of its time (${noClearing})`;
      return `${nearestWords(one)}${margin}${one.goes_on ? '; goes on at the end of the run' : ''}`;
    });
}
