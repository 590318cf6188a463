/**
 * A minute of the bench by the engine, second by second, against the slow pass from one run of seconds: pulses, and a battery that
 * charges beside them. `scripts/slow-against-full.ts` does an hour of the reference cabinet.
 */
import { expect, it } from 'vitest';
import { everySecond } from '../../scripts/slow/every-second.ts';
import { caseOf } from '../../src/analysis/record/case.ts';
import { driveOf } from '../../src/analysis/record/drive.ts';
import { run } from '../../src/run.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { barHeat } from '../../src/slow/bar-heat.ts';
import { barOf } from '../../src/slow/bar-of.ts';
import { marchStretch } from '../../src/slow/course.ts';
import type { Drive } from '../../src/slow/drive.ts';
import { march } from '../../src/slow/march.ts';
import { SlowCabinet } from '../../src/slow/slow-cabinet.ts';
import { slowStart } from '../../src/slow/slow-states.ts';
import { chargingChanges } from '../../src/studies/duty/plan.ts';
import { readShipped } from '../scenario/shipped.ts';
import { changes } from '../studies/here.ts';

const length_s = 60;

/** Bars of seconds, so that a minute shows how they warm up. */
const bench = changes(
  'batteries.add = B1 in A after K1',
  'bars.links.rated_current = 250 A',
  'bars.links.thermal_time = 40 s',
  'trays.thermal_time = 40 s',
  'load.before = 12 kW',
);

const read = (...more: readonly { readonly path: string; readonly value: string }[]): Scenario =>
  readShipped('scenarios/bench-step.yaml', [], { changes: [...bench, ...more] }).scenario;

const driven = (scenario: Scenario): Drive => {
  const { result, demand } = run(scenario, null);
  return driveOf(caseOf(scenario, demand, result));
};

it('temperatures are within 2 % of their rise and charge within 2 % of what was moved', () => {
  const short = changes(
    'batteries.charge = 40 %',
    'firmware.handover.charge_wait_min = 5 s',
    'firmware.handover.charge_wait_max = 5.1 s',
    'firmware.handover.charge_ramp = 1 s',
  );
  const scenario = read(...short, ...changes('duration = 3 s'));
  const full = everySecond(read(...short, ...changes(`duration = ${length_s + 1} s`)), length_s);
  const resting = driven(read(...changes('duration = 3 s')));
  const charging = driven(read(...changes('duration = 4 s'), ...chargingChanges));
  const begin = slowStart(scenario, resting, 'cold');
  const { states } = marchStretch(new SlowCabinet(scenario, { resting, charging }), begin, 0, length_s);

  const at = (id: string) => full.charge_ratio.get(id)! - 0.4;
  const moved = states.packs.get('B1')!.charge_ratio - 0.4;
  expect(moved).toBeGreaterThan(1e-3);
  expect(Math.abs(moved - at('B1'))).toBeLessThan(0.02 * at('B1'));

  let rise_K = 0;
  for (const squares of full.seconds) {
    const { rms } = squares.find(({ channel }) => channel === 'L1.current_A')!;
    rise_K = march(barHeat(barOf(scenario, 'L1'), rms)!, rise_K, 1, 1e-6);
  }
  expect(rise_K).toBeGreaterThan(20);
  expect(Math.abs(states.bar_K.get('L1')! - rise_K)).toBeLessThan(Math.min(0.5, 0.02 * rise_K));
});
