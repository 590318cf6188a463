import type { RecordedReading } from '../../scenario/scenario.ts';
import { type HowRecorded, toldReading } from './how-recorded.ts';
import type { QualityStatement } from './statement.ts';

/** How a recording was made, by options and by the file. `assumed`: keys of the reading that no option states. */
export function knownHow(
  { how, place, warnings }: QualityStatement,
  reading: RecordedReading,
  assumed: readonly string[],
): HowRecorded {
  const told = toldReading(reading, how);
  return {
    averaging_s: told.averaging_s,
    samples: told.samples,
    side: assumed.includes('reading.side') ? (place.side?.is ?? null) : reading.side,
    at: assumed.includes('reading.at') ? (place.at?.is ?? null) : reading.at,
    fresh: told.fresh,
    smoothed: reading.smoothed || how.smoothed,
    warned: warnings,
  };
}
