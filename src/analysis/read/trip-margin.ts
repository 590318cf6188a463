/** Excursions of guarded currents over the time that their protection's curve allows them. */
import type { Protection } from '../protection/protection.ts';
import { worst } from '../record/case.ts';
import { nearestWords, noClearing } from '../words/protection-words.ts';
import { cannotArise, type Reading, unsettled } from './reading.ts';

/** Length over allowed time, of the unit that comes nearest; 0 where no current reaches its curve. */
export function readTripMargin(protection: Protection | null): Reading {
  const units = protection?.units ?? [];
  const nearest = worst(units, ({ nearest: trip }) => trip?.used_ratio ?? 0);
  if (nearest === null) return cannotArise('no time–current curve is given (key protection)');
  const { nearest: trip, unit } = nearest;
  const reading: Reading = {
    value: trip?.used_ratio ?? 0,
    node: unit,
    time_s: trip?.from_s ?? null,
    duration_s: trip?.length_s ?? null,
    reason: `${nearestWords(nearest)}; ${noClearing}`,
  };
  const open = units.filter(({ goes_on }) => goes_on);
  if (open.length === 0) return reading;
  const who = open.map((one) => one.unit).join(', ');
  return unsettled(reading, `the run ends while ${who} is above the lowest current of its curve`, 'worse');
}
