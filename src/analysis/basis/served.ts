/**
 * Load that was asked for and not served: sleds that were off, cut off, throttled or braked, or whose governors hold the
 * work back, spare the cabinet what it is judged for.
 */
import { formatPercent } from '../../base/quantity.ts';
import type { BasisEntry } from '../basis.ts';
import type { Case } from '../record/case.ts';
import { servedRatio } from '../record/served.ts';
import { namedFew } from '../words/named-few.ts';
import { entry } from './entry.ts';

/** Less than this is how loads follow the bus, and means that hold an edge. */
const least_ratio = 0.01;
const most = 3;

/** Ramps let some of the work through late; beyond this the sleds hardly do what is asked of them (assumed). */
const late_ratio = 0.1;

const undrawn = 'a load that is not drawn cannot show what the cabinet does under it';

export function servedBasis(c: Case): BasisEntry[] {
  return [...nothingAskedBasis(c), ...heldBackBasis(c), ...undrawnBasis(c)];
}

function nothingAskedBasis({ demand }: Case): BasisEntry[] {
  if (demand.peak_W > 0) return [];
  return [entry('unserved', 'no load was demanded at all', { reason: undrawn, conditions: true })];
}

/** What governors keep from being asked of the sleds at all: energy that is not made up later, or the peak. */
function heldBackBasis({ demand: { asked, energy_J, peak_W } }: Case): BasisEntry[] {
  if (asked === undefined) return [];
  const energy = 1 - energy_J / asked.energy_J;
  const late = asked.withheld_J / asked.energy_J;
  const peak = 1 - peak_W / asked.peak_W;
  const held = [
    ...(energy > least_ratio ? [`${formatPercent(energy, 3)} of the work's energy`] : []),
    ...(late > late_ratio ? [`${formatPercent(late, 3)} of the work when it asks for power`] : []),
    ...(peak > least_ratio ? [`the uppermost ${formatPercent(peak, 3)} of its peak`] : []),
  ];
  if (held.length === 0) return [];
  return [
    entry('unserved', `the sleds' governors hold back ${held.join(' and ')}`, {
      reason: undrawn,
      conditions: true,
    }),
  ];
}

function undrawnBasis(c: Case): BasisEntry[] {
  const served = servedRatio(c);
  const sleds = new Set(c.scenario.sleds.map(({ id }) => id));
  const out = [...new Set(c.result.spans.filter(({ kind }) => kind === 'out').map(({ who }) => who))];
  const dark = out.filter((who) => sleds.has(who));
  if (served === null || served >= 1 - least_ratio) {
    if (dark.length === 0) return [];
    const what = `${namedFew(dark, most)} off for a while: what they computed is lost`;
    return [entry('unserved', what, { reason: undrawn, conditions: true })];
  }
  const who = dark.length === 0 ? 'sleds held back' : `${namedFew(dark, most)} off`;
  return [
    entry('unserved', `${formatPercent(1 - served, 3)} of the demanded load was not served (${who})`, {
      reason: undrawn,
      conditions: true,
    }),
  ];
}
