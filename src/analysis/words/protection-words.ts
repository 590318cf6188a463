/** Recorded currents against time–current curves, in words. */
import type { GuardedUnit, Protection } from '../protection/protection.ts';
import { numberText } from './number-text.ts';

export const noProtection = 'No protection: the scenario gives no time–current curve (key protection).';

export const noClearing =
  'nuisance trips alone, of the currents of this cabinet by itself: no clearing of faults';

export function nearestWords({ unit, protection, peak_A, rating_A, nearest }: GuardedUnit): string {
  const of = `${unit} behind ${protection} of ${numberText(rating_A, 'A')}, peak ${numberText(peak_A, 'A')}`;
  if (nearest === null) return `${of}: never up to the lowest current of the curve`;
  const { counted, current_A, length_s, allowed_s } = nearest;
  const how = counted === 'rms' ? 'RMS (thermal)' : 'and more throughout (magnetic)';
  return `${of}: ${numberText(current_A, 'A')} ${how} for ${numberText(length_s, 's')} of ${numberText(allowed_s, 's')} allowed`;
}

function nearestFirst({ units }: Protection): GuardedUnit[] {
  const used = ({ nearest }: GuardedUnit): number => nearest?.used_ratio ?? 0;
  return [...units].sort((a, b) => used(b) - used(a));
}

export const protectionHead = [
  ...['unit', 'behind', 'rating', 'peak', 'nearest to its curve', 'for', 'of allowed', 'counted', 'from'],
] as const;

/** A row a unit, the nearest to its curve first. */
export function protectionRows(protection: Protection): string[][] {
  return nearestFirst(protection).map(({ unit, protection: behind, rating_A, peak_A, nearest, goes_on }) => {
    const head = [unit, behind, numberText(rating_A, 'A'), numberText(peak_A, 'A')];
    const on = goes_on ? '; goes on at the end of the run' : '';
    if (nearest === null) return [...head, `never up to its lowest current${on}`, '', '', '', ''];
    const { counted, current_A, length_s, allowed_s, used_ratio, from_s } = nearest;
    return [
      ...head,
      `${numberText(current_A, 'A')}${on}`,
      numberText(length_s, 's'),
      `${numberText(allowed_s, 's')}, ${used_ratio < 1e-4 ? 'below 0.01 %' : numberText(used_ratio, 'ratio', 3)}`,
      counted === 'rms' ? 'RMS, thermal' : 'throughout, magnetic',
      numberText(from_s, 's'),
    ];
  });
}

/** A sentence a unit, the nearest to its curve first. */
export function protectionLines(protection: Protection): string[] {
  return nearestFirst(protection).map((one) => {
    const margin =
      one.nearest === null
        ? ''
        : `, ${numberText(one.nearest.used_ratio, 'ratio', 3)} of its time (${noClearing})`;
    return `${nearestWords(one)}${margin}${one.goes_on ? '; goes on at the end of the run' : ''}`;
  });
}
