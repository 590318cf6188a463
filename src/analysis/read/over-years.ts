/**
 * Lives are reported and not judged by a run: years of load, air and coolant are in no run of seconds, not even in a cycle that
 * repeats; the study of a duty judges them over a calendar. What the window would give if it went on is said, in the basis too, so that a short one is never unsaid.
 */
import type { Reading } from './reading.ts';

const year_s = 8766 * 3600;

export function overYears(node: string, life_s: number, rule: string): Reading {
  const years = Number((life_s / year_s).toPrecision(2));
  return {
    value: life_s,
    node,
    reportedOnly: true,
    reason: `a run does not judge years, a calendar does (buswake duty); under this load, uninterrupted, ${node} would last about ${years} years (${rule})`,
  };
}
