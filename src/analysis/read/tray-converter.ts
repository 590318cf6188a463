/** How close a tray's converter comes to its limits: at one it no longer follows the load. */
import { type Case, extremeOf, worst } from '../record/case.ts';
import { cannotArise, notShown, type Reading } from './reading.ts';

/** Highest power over the power limit or capacitor current over its limit, either direction, worst tray. */
export function readTrayConverter(c: Case): Reading {
  const { trays } = c.scenario;
  if (trays.length === 0) return cannotArise('the cabinet has no trays');
  const peaks = trays.flatMap(({ id, values }) =>
    [
      { channel: `${id}.power_W`, rating: values.power_limit_W, of: 'power' },
      { channel: `${id}.capacitor_current_A`, rating: values.capacitor_current_limit_A, of: 'current' },
    ].flatMap(({ channel, rating, of }) => {
      const extreme = extremeOf(c.result, channel);
      if (extreme === null || !(rating > 0)) return [];
      const down = -extreme.min > extreme.max;
      const most = down ? -extreme.min : extreme.max;
      return [{ id, of, down, ratio: most / rating, time_s: down ? extreme.min_s : extreme.max_s }];
    }),
  );
  const most = worst(peaks, ({ ratio }) => ratio);
  if (most === null) return notShown('no tray was recorded');
  const { id, of, down, ratio, time_s } = most;
  return { value: ratio, node: id, time_s, reason: `${of}, ${down ? 'taking up' : 'giving'}` };
}
