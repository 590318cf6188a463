/** A stated averaging time against what a sample is, and against the recording that it is stated for. */
import { formatQuantity } from '../../base/quantity.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';

import type { ColumnReport } from '../../tables/columns/column-report.ts';
import type { HowRecorded } from './how-recorded.ts';
import type { Overruled } from './overruled.ts';

type Stated = Pick<RecordedReading, 'averaging_s' | 'samples'>;

/** An averaging time within this share of the interval is that of the interval. */
const alike = 0.01;

/** An averaging time, or what a sample is, that was stated against the lines above the rows. */
export function meetAveraging(
  reading: Stated,
  how: HowRecorded,
  overruled: Overruled,
  refuse: ColumnReport,
): void {
  const [stated_s, own_s] = [reading.averaging_s, how.averaging_s];
  if (stated_s !== null && own_s !== null && stated_s < (1 - alike) * own_s) {
    const [stated, own] = [stated_s, own_s].map((t) => formatQuantity(t, 'time', 4));
    overruled.meet(
      `means over ${stated}, as stated, in a file that says averaging ${own}`,
      'an averaging time that is no shorter than that of the file',
      'leave out --averaging',
      refuse,
    );
  }
  if (how.samples !== null && reading.samples !== null && reading.samples !== how.samples)
    overruled.meet(
      `samples that are ${reading.samples}, as stated, in a file that says samples ${how.samples}`,
      'what the file says of its samples',
      'leave out --samples',
      refuse,
    );
}

/** What cannot be: instants that are means, or a mean over more than was recorded. */
export function refuseAveraging(
  { averaging_s, samples }: Stated,
  recorded_s: number,
  refuse: (found: string, expected: string, mend: string) => never,
): void {
  if (averaging_s === null) return;
  const time = formatQuantity(averaging_s, 'time', 4);
  if (samples === 'instants') {
    refuse(
      `samples that are instants and means over ${time}`,
      'one of them: an instant is the value at its stamp, averaged over nothing',
      'leave out --samples instants, or --averaging',
    );
  }
  if (averaging_s > recorded_s) {
    refuse(
      `means over ${time} in a recording of ${formatQuantity(recorded_s, 'time', 4)}`,
      'an averaging time within the recording',
      'check the unit of --averaging and of the stamps',
    );
  }
}

/** Means over less than their interval leave out what lies between them; empty where that is not so. */
export function shortAveraging({ averaging_s }: Stated, interval_s: number): string[] {
  if (averaging_s === null || averaging_s >= (1 - alike) * interval_s) return [];
  const [time, interval] = [averaging_s, interval_s].map((t) => formatQuantity(t, 'time', 4));
  return [
    `Each sample is the mean over ${time}, as stated, of an interval of ${interval}: what the load did in the rest of it is not in it, and the bandwidth stays that of the rate.`,
  ];
}
