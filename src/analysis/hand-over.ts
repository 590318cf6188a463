/** How fast batteries take the load. */
import { type Case, worst } from './case.ts';
import { absent, type Reading } from './reading.ts';

/** Longest time from a battery's start to carrying. The debounce before the start is the trigger's own. */
export function readBatteryTakeOver(c: Case): Reading {
  const { log, window } = c.result;
  const taken = log.flatMap((entry) => {
    if (entry.what !== 'battery-start' || entry.time_s < window.from_s) return [];
    const carries = log.find(
      (e) => e.what === 'battery-carry' && e.who === entry.who && e.time_s >= entry.time_s,
    );
    return carries === undefined
      ? []
      : [{ who: entry.who, at: entry.time_s, took: carries.time_s - entry.time_s }];
  });
  const longest = worst(taken, (t) => t.took);
  if (longest === null) return absent('no battery took the load');
  return { value: longest.took, node: longest.who, time_s: longest.at };
}
