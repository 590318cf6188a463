/** Limits that a duty judges by its course: heat at its highest, life, recharge. A single run of seconds leaves them open. */
import { headroomOf } from '../../analysis/judge/headroom.ts';
import { isInside } from '../../analysis/judge/tie.ts';
import { ratedRise_K } from '../../copper/rating.ts';
import { limitsOf } from '../../limits/applicable.ts';
import type { Limit } from '../../limits/limit.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { softened_K } from '../../slow/joint-heat.ts';
import type { Peaks } from '../../slow/peaks.ts';
import type { MarchedCalendar } from './calendar.ts';
import { type DutyPlan, roundLength_s } from './plan.ts';

/** Quantities of limits that are judged here and no longer by the stretches' runs. */
export const settledQuantities = [
  'bar-heat',
  'joint-heat',
  'tray-hot-spot',
  'tray-life',
  'bank-life',
  'battery-recharge',
] as const;

export type SettledQuantity = (typeof settledQuantities)[number];

export interface DutyFinding {
  readonly id: string;
  readonly column: string;
  readonly verdict: 'pass' | 'fail' | 'open';
  readonly value: number | null;
  readonly limit: number;
  readonly unit: string;
  readonly headroom_ratio: number | null;
  /** Stretch in which it is worst; null of lives, which all of them take. */
  readonly stretch: string | null;
  readonly node: string | null;
  /** When it is worst, from the beginning of the calendar [s]. */
  readonly at_s: number | null;
  readonly reason: string | null;
}

interface Value {
  readonly value: number;
  readonly nominal?: number;
  readonly node: string;
  readonly at_s: number | null;
  readonly reason?: string;
  /** The truth is no better than the value: it fails beyond its limit and is open within. */
  readonly atLeast?: true;
}

/** The worst first: what fails, then by headroom, then what is open. */
export function settledFindings(plan: DutyPlan, calendar: MarchedCalendar): readonly DutyFinding[] {
  const ofStretches = plan.stretches.flatMap(({ name, scenario }, k) =>
    applying(scenario).flatMap((limit) => {
      const value = inStretch(limit.quantity as SettledQuantity, scenario, calendar, k);
      return value === null ? [] : [judged(limit, value, name)];
    }),
  );
  const lives = applying(plan.stretches[0]!.scenario).flatMap((limit) => {
    const value = overAll(limit.quantity as SettledQuantity, plan, calendar);
    return value === null ? [] : [judged(limit, value, null)];
  });
  const worst = new Map<string, DutyFinding>();
  for (const one of [...ofStretches, ...lives]) {
    const was = worst.get(one.id);
    if (was === undefined || order(one) < order(was)) worst.set(one.id, one);
  }
  return [...worst.values()].sort((a, b) => order(a) - order(b));
}

function order({ verdict, headroom_ratio }: DutyFinding): number {
  const rank = { fail: -2e9, open: -1e9, pass: 0 }[verdict];
  return rank + (headroom_ratio ?? 1e8);
}

/** Limits on these quantities that have a number in a stretch: the degraded column where an outage is stated. */
function applying(scenario: Scenario): readonly Limit[] {
  return limitsOf(scenario, scenario.outage).filter(
    ({ quantity, value }) => value !== null && settledQuantities.some((one) => one === quantity),
  );
}

function judged(limit: Limit, found: Value, stretch: string | null): DutyFinding {
  const inside = isInside(found.value, limit.value!, limit.side);
  const isOpen = found.atLeast === true && inside;
  return {
    id: limit.id,
    column: limit.column,
    verdict: isOpen ? 'open' : inside ? 'pass' : 'fail',
    value: found.value,
    limit: limit.value!,
    unit: limit.unit,
    headroom_ratio: isOpen ? null : headroomOf(found, limit),
    stretch,
    node: found.node,
    at_s: found.at_s,
    reason: found.reason ?? null,
  };
}

/** The highest that any part gets in a stretch, of all rounds that were marched. */
function inStretch(
  quantity: SettledQuantity,
  scenario: Scenario,
  { rounds }: MarchedCalendar,
  k: number,
): Value | null {
  const most = (kind: keyof Peaks): Value | null =>
    rounds.reduce<Value | null>((found, { stretches }) => {
      const peak = stretches[k]!.peaks[kind];
      return peak === null || (found !== null && found.value >= peak.value) ? found : peak;
    }, null);
  switch (quantity) {
    case 'bar-heat': {
      const bar = most('bar_K');
      return bar === null
        ? null
        : { ...bar, value: bar.value / ratedRise_K, reason: `${bar.value.toFixed(1)} K above its air` };
    }
    case 'joint-heat': {
      const joint = most('joint_K');
      if (joint === null || joint.value < softened_K) return joint;
      const when = rounds
        .flatMap(({ stretches }) => stretches[k]!.moments)
        .find(({ what }) => what === 'softened');
      return {
        ...joint,
        at_s: when?.at_s ?? joint.at_s,
        reason: `runs away: past ${softened_K} K nobody follows it`,
      };
    }
    case 'tray-hot-spot': {
      const tray = most('tray_degC');
      if (tray === null) return null;
      const coolant = scenario.trays.find(({ id }) => id === tray.node)!.values.coolant_temperature_degC;
      return { ...tray, nominal: coolant, reason: `coolant at ${coolant} °C` };
    }
    case 'battery-recharge':
      return recharge(rounds, k);
    default:
      return null;
  }
}

/** The longest recharge that ended in a stretch. */
function recharge(rounds: MarchedCalendar['rounds'], k: number): Value | null {
  let found: Value | null = null;
  for (const { stretches } of rounds)
    for (const { who, what, took_s, at_s } of stretches[k]!.moments)
      if (what === 'full' && took_s !== null && (found === null || took_s > found.value))
        found = { value: took_s, node: who, at_s: at_s - took_s };
  return found;
}

/** Of the calendar as a whole: lives as the last round wears them, and batteries that are still short at its end. */
function overAll(quantity: SettledQuantity, plan: DutyPlan, { rounds }: MarchedCalendar): Value | null {
  const last = rounds.at(-1)!.stretches;
  const [before, after] = [last[0]!.begin, last.at(-1)!.end];
  if (quantity === 'battery-recharge') {
    const short = [...after.packs].filter(
      ([, { short_s, phase }]) => short_s !== null && phase !== 'carrying',
    );
    const longest = short.reduce<Value | null>((most, [node, { short_s, charge_ratio }]) => {
      if (most !== null && most.value >= short_s!) return most;
      const reason = `still at ${(100 * charge_ratio).toFixed(0)} % when the calendar ends`;
      return { value: short_s!, node, at_s: null, reason, atLeast: true };
    }, null);
    return longest;
  }
  if (quantity !== 'tray-life' && quantity !== 'bank-life') return null;
  const units =
    quantity === 'tray-life' ? plan.stretches[0]!.scenario.trays : plan.stretches[0]!.scenario.banks;
  let found: Value | null = null;
  for (const { id } of units) {
    const worn = (after.worn_ratio.get(id) ?? 0) - (before.worn_ratio.get(id) ?? 0);
    if (!(worn > 0)) continue;
    const life_s = roundLength_s(plan) / worn;
    if (found === null || life_s < found.value)
      found = {
        value: life_s,
        node: id,
        at_s: null,
        reason: 'heat and voltage of the whole calendar; rules: common practice',
      };
  }
  return found;
}
