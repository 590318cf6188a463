/**
 * The slow pass against the engine itself: an hour of a cabinet run in full, its slow states integrated by plain Euler steps of a second from
 * the mean squares of every second, against the slow pass from one run of seconds; then an hour of recharge the same way, where the
 * engine's own packs say the charge.
 *
 *   node --import tsx scripts/slow-against-full.ts [SCENARIO] [MINUTES]        pulse-train, 60
 *
 * Last the time of a day (the study duty-day, once through) beside that of one run in the same process.
 */
import { caseOf } from '../src/analysis/record/case.ts';
import { driveOf } from '../src/analysis/record/drive.ts';
import { DiskSource } from '../src/bundle/disk-source.ts';
import { perKelvin, warmer } from '../src/copper/material.ts';
import { readShortText } from '../src/disk/read-file.ts';
import { run } from '../src/run.ts';
import type { ReadScenario } from '../src/scenario/read.ts';
import type { Scenario } from '../src/scenario/scenario.ts';
import { scenarioFile } from '../src/shipped/scenario-named.ts';
import { studyNamed } from '../src/shipped/study-named.ts';
import { barOf } from '../src/slow/bar-of.ts';
import { marchStretch } from '../src/slow/course.ts';
import type { Drive } from '../src/slow/drive.ts';
import { SlowCabinet } from '../src/slow/slow-cabinet.ts';
import { type SlowStates, slowStart } from '../src/slow/slow-states.ts';
import { Bench } from '../src/studies/bench/bench.ts';
import { Shelf } from '../src/studies/bench/shelf.ts';
import { duty } from '../src/studies/duty/duty.ts';
import { chargingChanges, planDuty } from '../src/studies/duty/plan.ts';
import { everySecond, type InFull } from './slow/every-second.ts';

const [name = 'pulse-train', minutes = '60'] = process.argv.slice(2);
const length_s = 60 * Number(minutes);
const shelf = new Shelf(new DiskSource());
const file = scenarioFile(name);

const text = (changes: Readonly<Record<string, string>>): ReadScenario =>
  shelf.read({ scenario: file, changes: Object.entries(changes).map(([path, value]) => ({ path, value })) });

function seconds(): number {
  return Number(process.hrtime.bigint()) / 1e9;
}

function driveFrom(scenario: Scenario): { readonly drive: Drive; readonly took_s: number } {
  const from = seconds();
  const { result, demand } = run(scenario, null);
  return { drive: driveOf(caseOf(scenario, demand, result)), took_s: seconds() - from };
}

/** Every bar's and tray's temperature after Euler steps of a second, from cold. Written here again, to be held against `slow/`. */
function euler(
  scenario: Scenario,
  each: InFull['seconds'],
): { bar_K: Map<string, number>; tray_degC: Map<string, number> } {
  const bar_K = new Map<string, number>();
  const tray_degC = new Map(scenario.trays.map(({ id, values }) => [id, values.coolant_temperature_degC]));
  for (const squares of each)
    for (const { channel, rms } of squares) {
      const owner = channel.replace(/\.(capacitor_)?current_A$/, '');
      const tray = scenario.trays.find(({ id }) => id === owner);
      if (tray !== undefined) {
        const { coolant_temperature_degC, thermal_resistance_K_per_W, esr_ohm, thermal_time_s } = tray.values;
        const T = tray_degC.get(owner)!;
        const own_ohm = esr_ohm * (1 - tray.values.esr_warm_fall_ratio * (T - 25));
        const end = coolant_temperature_degC + thermal_resistance_K_per_W * own_ohm * rms * rms;
        tray_degC.set(owner, T + (end - T) / thermal_time_s);
        continue;
      }
      if (!isBar(scenario, owner)) continue;
      const bar = barOf(scenario, owner);
      if (!(bar.rated_current_A > 0)) continue;
      const rise = bar_K.get(owner) ?? 0;
      const ratio = (1 + perKelvin * (bar.air_temperature_degC + rise - 20)) / warmer(90);
      const taken = (rms / bar.rated_current_A) ** 2 - (rise / 50) ** (2 * 0.61);
      bar_K.set(owner, rise + (50 / bar.thermal_time_s) * ratio * taken);
    }
  return { bar_K, tray_degC };
}

function isBar({ bars }: Scenario, owner: string): boolean {
  return owner.includes('-') || bars.tie?.id === owner || bars.links.some(({ id }) => id === owner);
}

interface Apart {
  readonly who: string;
  readonly full: number;
  readonly slow: number;
}

function worst(full: ReadonlyMap<string, number>, slow: ReadonlyMap<string, number>): Apart {
  let found: Apart = { who: '', full: 0, slow: 0 };
  for (const [who, value] of full) {
    const other = slow.get(who);
    if (other !== undefined && Math.abs(other - value) >= Math.abs(found.slow - found.full))
      found = { who, full: value, slow: other };
  }
  return found;
}

function tell(what: string, { who, full, slow }: Apart, from: number, unit: string): void {
  const share = (100 * Math.abs(slow - full)) / Math.max(1e-9, Math.abs(full - from));
  process.stdout.write(
    `${what}: worst at ${who}, full ${full.toFixed(3)} ${unit}, slow ${slow.toFixed(3)} ${unit}, apart ${(slow - full).toFixed(4)} ${unit}, ${share.toFixed(2)} % of what it moved\n`,
  );
}

function hottest(states: SlowStates): string {
  const [who, rise] = [...states.bar_K].reduce((a, b) => (b[1] > a[1] ? b : a));
  return `warmest bar ${who} at ${rise.toFixed(2)} K`;
}

const plain = text({});
const quick = driveFrom(plain.scenario);
process.stdout.write(`one run of ${name}: ${quick.took_s.toFixed(2)} s\n`);

const long = text({ duration: `${length_s + 2} s` });
let from = seconds();
const full = everySecond(long.scenario, length_s);
const full_s = seconds() - from;
from = seconds();
const cold = slowStart(plain.scenario, quick.drive, 'cold');
const slow = marchStretch(
  new SlowCabinet(plain.scenario, { resting: quick.drive, charging: null }),
  cold,
  0,
  length_s,
);
const slow_s = seconds() - from;
const exact = euler(long.scenario, full.seconds);
process.stdout.write(
  `${minutes} min in full ${full_s.toFixed(1)} s, by the slow pass ${slow_s.toFixed(3)} s beside its run; ${hottest(slow.states)}\n`,
);
tell('bars', worst(exact.bar_K, slow.states.bar_K), 0, 'K');
const coolant = plain.scenario.trays[0]?.values.coolant_temperature_degC ?? 0;
tell('cells', worst(exact.tray_degC, slow.states.tray_degC), coolant, '°C');

const begin = {
  'batteries.charge': '40 %',
  'firmware.handover.charge_wait_min': '59.9 s',
  'firmware.handover.charge_wait_max': '60 s',
};
const short = text({ ...begin, duration: `${length_s + 2} s` });
const charging = shelf.read({ scenario: file, changes: [...chargingChanges] });
from = seconds();
const recharged = everySecond(short.scenario, length_s);
const drives = { resting: quick.drive, charging: driveFrom(charging.scenario).drive };
const shortStart = slowStart(short.scenario, quick.drive, 'cold');
const course = marchStretch(new SlowCabinet(short.scenario, drives), shortStart, 0, length_s);
process.stdout.write(`recharge of ${minutes} min in full: ${(seconds() - from).toFixed(1)} s\n`);
const charge = new Map([...course.states.packs].map(([id, { charge_ratio }]) => [id, charge_ratio]));
tell('charge', worst(recharged.charge_ratio, charge), 0.4, '');
tell(
  'packs',
  worst(recharged.pack_degC, new Map([...course.states.packs].map(([id, { degC }]) => [id, degC]))),
  short.scenario.batteries[0]!.values.ambient_degC,
  '°C',
);
tell('bars', worst(euler(short.scenario, recharged.seconds).bar_K, course.states.bar_K), 0, 'K');

const bench = new Bench({ typed: shelf.typed });
const day = studyNamed('duty-day', 'duty', [], readShortText);
from = seconds();
const plan = planDuty({ ...day, words: new Map() }, (of) => shelf.read(of));
const report = await duty.carryOut(plan, bench.run);
const day_s = seconds() - from;
await bench.close();
process.stdout.write(
  `a day of ${report.stretches.length} stretches, ${report.runs} runs: ${day_s.toFixed(1)} s, ${(day_s / quick.took_s).toFixed(1)} times one run of ${name}\n`,
);
