/** The long columns of a result, which a thread hands over instead of copying them: those of an hour take 130 MB. */
import type { Result } from './result.ts';

export function longColumns({ streams, means, recording }: Result): ArrayBuffer[] {
  const columns = [
    ...streams.map(({ samples }) => samples),
    ...means.columns.values(),
    ...recording.min,
    ...recording.max,
    ...recording.mean,
    ...recording.closeUps.flatMap(({ time_s, values }) => [time_s, ...values]),
  ];
  return [...new Set(columns.map(({ buffer }) => buffer as ArrayBuffer))];
}
