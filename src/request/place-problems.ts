/** Where a replayed recording was taken must be stated: by option, or by the names of its columns. */

import type { Problem } from '../base/problem.ts';
import type { StatedPlace } from '../loads/recorded/stated-place.ts';
import type { RecordedReading } from '../scenario/scenario.ts';
import type { AskedLoad } from './run-request.ts';

/**
 * `place`: what the file says. Where it says nothing the option is asked for; a name that speaks for AC is not enough
 * to change what is played and asks for it as well.
 */
export function placeProblems(place: StatedPlace, load: Pick<AskedLoad, 'assumed' | 'reading'>): Problem[] {
  const problems: Problem[] = sideProblems(place, load);
  if (load.assumed.includes('reading.at') && place.at === null) {
    problems.push({
      severity: 'error',
      file: '--load',
      found: 'a recording whose place is stated neither by an option nor by its columns',
      expected: 'what was measured: single devices, a sled or a whole rack',
      mend: 'give --at device, --at sled or --at rack',
    });
  }
  return problems;
}

/** The side alone. */
export function sideProblems(
  { side }: StatedPlace,
  { assumed, reading }: Pick<AskedLoad, 'assumed' | 'reading'>,
): Problem[] {
  if (!assumed.includes('reading.side') || side?.is === reading.side) return [];
  return [
    {
      severity: 'error',
      file: '--load',
      found:
        side === null
          ? 'a recording whose side of the power supply is stated neither by an option nor by its columns'
          : `a recording whose side is not stated; ${side.name.startsWith('#') ? 'the line' : 'column'} ${side.name} speaks for ${side.is}`,
      expected: 'where it was measured: behind the power supply (dc) or before it (ac)',
      mend: 'give --side dc or --side ac',
    },
  ];
}

/** The reading with the place that the file says, where no option says one. */
export function placedReading({ at }: StatedPlace, { assumed, reading }: AskedLoad): RecordedReading {
  return at !== null && assumed.includes('reading.at') ? { ...reading, at: at.is } : reading;
}
