/**
 * How long batteries that gave charge take until they are full again: from where they rest to full, as the run
 * shows it; where the run ends before, reckoned on from what is missing then, at the power they may charge with.
 */
import type { LogEntry, LogKind } from '../../events/log.ts';
import type { Limit } from '../../limits/limit.ts';
import { energyShare } from '../../network/columns/open-circuit.ts';
import { type Case, channelsOf, worst } from '../record/case.ts';
import { numberText } from '../words/number-text.ts';
import { cannotArise, notShown, type Reading, unsettled } from './reading.ts';

const rests: ReadonlySet<LogKind> = new Set(['battery-sleep', 'battery-empty', 'battery-hot']);
const begins: ReadonlySet<LogKind> = new Set(['battery-wait', 'battery-charge']);

interface Charged {
  readonly id: string;
  readonly at_s: number;
  readonly took_s: number;
  /** It cannot have taken less: without further wait, at all the power that its charger has. */
  readonly least_s: number;
  /** What was missing at the end of the run, as a share of the charge; 0 where the run shows it full. */
  readonly missing: number;
}

export function readRecharge(c: Case, limit: Limit): Reading {
  const { batteries } = c.scenario;
  const used = batteries.filter(({ id }) => c.result.log.some((e) => e.who === id && gave(e)));
  if (used.length === 0) return cannotArise('no battery gave charge');
  if (!used.some(({ values }) => values.charge_power_W > 0))
    return cannotArise('nothing charges the batteries');
  const slowest = worst(
    used.flatMap(({ id }) => chargedOf(c, id) ?? []),
    (b) => b.took_s,
  );
  if (slowest === null) return notShown('batteries still carry at the end of the run');
  const { id, at_s, took_s, least_s, missing } = slowest;
  const reading = { value: took_s, node: id, time_s: at_s };
  if (missing === 0) return reading;
  const left = `${numberText(missing, 'ratio')} of the charge missing when the window ended; continued at the power granted`;
  const isTooLong = limit.value !== null && least_s > limit.value;
  return unsettled(reading, left, isTooLong ? 'worse' : 'either');
}

function gave({ what }: LogEntry): boolean {
  return what === 'battery-carry' || what === 'battery-empty' || begins.has(what);
}

/** The last recharge of a shelf; null while it carries, or where nothing charges it. */
function chargedOf(c: Case, id: string): Charged | null {
  const { result, scenario } = c;
  const { values } = scenario.batteries.find((battery) => battery.id === id)!;
  const own = result.log.filter(({ who }) => who === id);
  const carried = own.findLastIndex(({ what }) => what === 'battery-carry' || what === 'battery-start');
  const rest = own.findIndex(({ what }, k) => k > carried && (rests.has(what) || begins.has(what)));
  if (rest < 0 || !(values.charge_power_W > 0)) return null;
  const at_s = own[rest]!.time_s;
  const full = own.findIndex(({ what }, k) => k > rest && what === 'battery-full');
  const full_s = own[full]?.time_s;
  if (full_s !== undefined) return { id, at_s, took_s: full_s - at_s, least_s: full_s - at_s, missing: 0 };
  const { index } = channelsOf(result, 'battery-charge').find(({ owner }) => owner === id)!;
  const z = result.recording.max[index]![result.recording.bucketCount - 1]!;
  const { charge_budget_W, charge_wait_max_s } = scenario.firmware.handover;
  const power = Math.min(values.charge_power_W, charge_budget_W / scenario.batteries.length);
  const missing = 1 - energyShare(values, z);
  const going = own.slice(rest).some(({ what }) => what === 'battery-charge');
  const wait = going ? 0 : charge_wait_max_s;
  const since_s = result.window.to_s - at_s;
  const at = (power_W: number): number => (missing * values.energy_J) / (power_W * values.efficiency_ratio);
  return {
    id,
    at_s,
    took_s: since_s + wait + at(power),
    least_s: since_s + at(values.charge_power_W),
    missing,
  };
}
