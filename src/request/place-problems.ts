/** Where a replayed recording was taken must be stated: by option, or by the names of its columns. */
import type { Said, StatedPlace } from '../loads/recorded/stated-place.ts';
import type { Problem } from '../problem.ts';
import type { AskedLoad } from './run-request.ts';

/** `place`: what the file says. Nothing is taken for granted: an AC recording taken for DC would pass too easily. */
export function placeProblems(place: StatedPlace, { assumed, reading }: AskedLoad): Problem[] {
  return [
    ...unstated('side', place.side, reading.side, assumed, {
      found: 'a recording whose side of the power supply neither an option nor its columns say',
      expected: 'where it was measured: behind the power supply (dc) or before it (ac)',
      mend: 'give --side dc or --side ac',
    }),
    ...unstated('at', place.at, reading.at, assumed, {
      found: 'a recording whose place neither an option nor its columns say',
      expected: 'what was measured: single devices, a sled or a whole rack',
      mend: 'give --at device, --at sled or --at rack',
    }),
  ];
}

function unstated<T extends string>(
  key: 'side' | 'at',
  said: Said<T> | null,
  taken: T,
  assumed: readonly string[],
  problem: Pick<Problem, 'found' | 'expected' | 'mend'>,
): Problem[] {
  if (!assumed.includes(`reading.${key}`) || said?.is === taken) return [];
  if (said === null) return [{ severity: 'error', file: '--load', ...problem }];
  const found = `a recording of which nobody stated --${key}; column ${said.name} speaks for ${said.is}`;
  const mend = `give --${key} ${said.is}, or --${key} ${taken} if the name misleads`;
  return [{ severity: 'error', file: '--load', found, expected: problem.expected, mend }];
}
