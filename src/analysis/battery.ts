/** Batteries that wake or work while AC is present. */
import type { LogEntry } from '../events/log.ts';
import { type Case, channelsOf, extremeOf, ratedCurrent, worst } from './case.ts';
import { absent, type Reading } from './reading.ts';
import { holds } from './spans.ts';

/** Battery starts in the window, repeats counted. */
export function batteryStarts(c: Case): LogEntry[] {
  const { from_s, to_s } = c.result.window;
  return c.result.log.filter(
    (entry) => entry.what === 'battery-start' && entry.time_s >= from_s && entry.time_s <= to_s,
  );
}

/** Starts while AC is present; a start from AC loss to the end of walk-in is the battery's job. */
export function readBatteryStarts(c: Case): Reading {
  const { lost, walkIn } = c.applies;
  const all = batteryStarts(c);
  const wrong = all.filter((entry) => !holds([...lost, ...walkIn], entry.time_s));
  const first = wrong[0];
  const meant = all.length - wrong.length;
  return {
    value: wrong.length,
    counts: true,
    count: wrong.length,
    node: first?.who ?? null,
    time_s: first?.time_s ?? null,
    reason: meant === 0 ? null : `${meant} more while AC was lost or walking in, as meant`,
  };
}

/** Largest current of a battery shelf that neither started nor charged, over its rating. */
export function readBatteryIdle(c: Case): Reading {
  const busy = c.result.log.filter(({ what }) => what === 'battery-start' || what === 'battery-charge');
  const started = new Set(busy.map(({ who }) => who));
  const currents = channelsOf(c.result, 'battery-current').flatMap(({ id, owner }) => {
    const battery = c.scenario.batteries.find((b) => b.id === owner);
    const extreme = extremeOf(c.result, id);
    if (battery === undefined || extreme === null || started.has(owner)) return [];
    const down = -extreme.min > extreme.max;
    return [
      {
        owner,
        ratio: Math.max(extreme.max, -extreme.min) / ratedCurrent(battery.values),
        time_s: down ? extreme.min_s : extreme.max_s,
      },
    ];
  });
  const most = worst(currents, (b) => b.ratio);
  return most === null
    ? absent('no battery shelf slept through the run')
    : { value: most.ratio, node: most.owner, time_s: most.time_s };
}
