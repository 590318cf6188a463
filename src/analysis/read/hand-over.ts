/** How fast batteries take the load. */
import { type Case, worst } from '../record/case.ts';
import { cannotArise, type Reading, unsettled } from './reading.ts';

/** Longest time from a battery's start to carrying. The debounce before the start is the trigger's own. */
export function readBatteryTakeOver(c: Case): Reading {
  if (c.scenario.batteries.length === 0) return cannotArise('the cabinet has no batteries');
  const { log, window } = c.result;
  const starts = log.filter(({ what, time_s }) => what === 'battery-start' && time_s >= window.from_s);
  if (starts.length === 0) return cannotArise('no battery started: AC was there and the bus held');
  const taken = starts.map(({ who, time_s }) => {
    const carries = log.find((e) => e.what === 'battery-carry' && e.who === who && e.time_s >= time_s);
    return {
      who,
      at: time_s,
      took: (carries?.time_s ?? window.to_s) - time_s,
      carries: carries !== undefined,
    };
  });
  const longest = worst(taken, (t) => t.took)!;
  const reading = { value: longest.took, node: longest.who, time_s: longest.at };
  return longest.carries
    ? reading
    : unsettled(reading, 'it had not taken the load when the window ended', 'worse');
}
