/** Batteries that wake or work while AC is present. */
import type { LogEntry } from '../../events/log.ts';
import type { Span } from '../../events/spans.ts';
import { type Case, channelsOf, extremeOf, ratedCurrent, spansOf, worst } from '../record/case.ts';
import { extremeClearOf } from '../record/clear-extremes.ts';
import { holds, joined, shareOf } from '../record/spans.ts';
import { cannotArise, notShown, type Reading } from './reading.ts';

/** Battery starts in the window, repeats counted. */
export function batteryStarts(c: Case): LogEntry[] {
  const { from_s, to_s } = c.result.window;
  return c.result.log.filter(
    (entry) => entry.what === 'battery-start' && entry.time_s >= from_s && entry.time_s <= to_s,
  );
}

/** Starts while AC is present; from AC loss, as a shelf counts it or batteries are told, to the end of walk-in it is their job. */
export function readBatteryStarts(c: Case): Reading {
  if (c.scenario.batteries.length === 0) return cannotArise('the cabinet has no batteries');
  const meantIn = spansOf(c, ['ac-lost', 'ac-told-lost', 'walk-in']);
  const all = batteryStarts(c);
  const wrong = all.filter((entry) => !holds(meantIn, entry.time_s));
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

/** From a start, or what follows one, a battery shelf is awake; its current takes this long to die [s]. */
const dies_s = 0.01;

/** When a battery shelf is awake: from its start on, carrying, charging, empty or failed. */
function awake(c: Case, owner: string): Span[] {
  const busy = spansOf(c, ['carrying', 'charging', 'out'], owner);
  const arming = c.result.log.flatMap(({ who, what, time_s }) => {
    if (who !== owner || what !== 'battery-start') return [];
    const next = busy.find(({ from_s }) => from_s >= time_s);
    return [{ from_s: time_s, to_s: next?.from_s ?? c.result.window.to_s }];
  });
  return joined([...busy, ...arming].map(({ from_s, to_s }) => ({ from_s, to_s: to_s + dies_s })));
}

/** Largest current of a battery shelf while it sleeps, over its rating. */
export function readBatteryIdle(c: Case): Reading {
  if (c.scenario.batteries.length === 0) return cannotArise('the cabinet has no batteries');
  const currents = channelsOf(c.result, 'battery-current').flatMap(({ id, owner, index }) => {
    const battery = c.scenario.batteries.find((b) => b.id === owner);
    const busy = awake(c, owner);
    const extreme = busy.length === 0 ? extremeOf(c.result, id) : extremeClearOf(c, index, busy);
    if (battery === undefined || extreme === null) return [];
    const down = -extreme.min > extreme.max;
    return [
      {
        ratio: Math.max(extreme.max, -extreme.min) / ratedCurrent(battery.values),
        reading: {
          node: owner,
          time_s: down ? extreme.min_s : extreme.max_s,
          share_seen: 1 - shareOf(c.result.window, busy),
        },
      },
    ];
  });
  const most = worst(currents, (b) => b.ratio);
  return most === null
    ? notShown('no battery shelf slept in the window')
    : { value: most.ratio, ...most.reading };
}
