/** Several at one time. */
import { above, asleep, lit } from '../readings.ts';
import { type FaultRow, pulses, row } from './row.ts';

export const severalFaults: readonly FaultRow[] = [
  row(
    '34',
    'old, a shelf out, a tray out and a link bar out, all under pulses',
    'end-of-life',
    pulses,
    ['shelf-trip S3 at 0.5 s', 'bar-out LA1 at 0.5 s', 'tray-out T3 at 0.5 s'],
    'degraded',
    (run) => {
      asleep(run);
      lit(run);
      above(run, 48.5);
    },
  ),
];
