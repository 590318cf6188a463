/**
 * Sleds against their peak power. Limits here ask something of the load: what it leaves of the sleds' rating is no
 * margin of the cabinet, so no headroom is stated and a cabinet's tightest limit remains one of its own.
 */
import type { Limit } from '../../limits/limit.ts';
import { oneSecond_s } from '../../scenario/limit-quantities.ts';
import { type Case, extremeOf, worst } from '../record/case.ts';
import { type Rated, readSustained } from '../record/sustained.ts';
import { cannotArise, notShown, type Reading } from './reading.ts';

const powerOf = (sled: string): string => `${sled}.power_W`;

/** Largest mean over 1 s of a sled's power over its peak power, worst sled. */
export function readSledPower1s(c: Case): Reading {
  return ofLoad(c, (sleds) => readSustained(c, sleds, powerOf, oneSecond_s, 'mean'));
}

/** Level over peak power that a sled stays above for the row's stay; without one the highest power. */
export function readSledPower(c: Case, { stay_s }: Pick<Limit, 'stay_s'>): Reading {
  return ofLoad(c, (sleds) =>
    stay_s !== null && stay_s > 0 ? readSustained(c, sleds, powerOf, stay_s, 'held') : highest(c, sleds),
  );
}

function highest(c: Case, sleds: readonly Rated[]): Reading {
  const peaks = sleds.flatMap(({ id, rating }) => {
    const extreme = extremeOf(c.result, powerOf(id));
    return extreme === null ? [] : [{ id, ratio: extreme.max / rating, time_s: extreme.max_s }];
  });
  const most = worst(peaks, ({ ratio }) => ratio);
  return most === null
    ? notShown('no power of a sled was recorded')
    : { value: most.ratio, node: most.id, time_s: most.time_s };
}

/** A shorted sled feeds its short, which is no power of its own: it is left out. */
function ofLoad(c: Case, read: (sleds: readonly Rated[]) => Reading): Reading {
  const shorted = new Set(c.result.spans.filter(({ kind }) => kind === 'short').map(({ who }) => who));
  const sleds = c.scenario.sleds
    .filter(({ id }) => !shorted.has(id))
    .map(({ id, values }) => ({ id, rating: values.peak_power_W }));
  if (sleds.length === 0) return cannotArise('the cabinet has no sled that is not shorted');
  return { ...read(sleds), counts: true };
}
