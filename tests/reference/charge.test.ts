/**
 * The trays' charge loop. A proportional loop p = (E* − E)/τ_soc holds a standing loss P with E* − E = P τ_soc, per tray (final value of
 *   a first-order loop, by hand). The plant is bare: the energy of a tray is the integral of what its capacitor gets.
 * Tolerance 1e-3: twelve time constants leave 6e-6, a period of 10 ms takes part in each step.
 */
import { it } from 'vitest';
import { portsOf } from '../../src/devices/ports.ts';
import { Log } from '../../src/events/log.ts';
import { siteOf } from '../../src/firmware/site.ts';
import { Smoothing } from '../../src/firmware/tray/smoothing.ts';
import { assemble } from '../../src/network/network.ts';
import { shippedWith } from '../engine/runs.ts';
import { published } from './published.ts';

const offsets = published({
  what: 'standing error of the charge loop, P_loss τ_soc',
  source: 'final value of a first-order loop, by hand',
  unit: 'J',
});

it.each([
  [20, 60],
  [20, 200],
  [60, 120],
])('a charge loop of %d s holds a standing loss of %d W at P τ below its schedule', (tau, loss) => {
  const scenario = shippedWith('idle', {
    'firmware.smoothing.charge_time': `${tau} s`,
    'trays.standing_loss': `${loss} W`,
    'trays.efficiency': '100 %',
    'trays.leakage': '0 A',
    'trays.esr': '1 nΩ',
  });
  const network = assemble(scenario);
  const { trays, sensor, stateCount, nodeCount } = network;
  const x = new Float64Array(stateCount);
  const v = new Float64Array(nodeCount).fill(50);
  const capacitor = trays.offset + trays.count;
  for (let k = 0; k < trays.count; k++) x[capacitor + k] = 37;
  const values = {
    ...scenario.firmware.smoothing,
    period_s: 0.01,
    charge_integral_time_s: Number.POSITIVE_INFINITY,
  };
  const site = siteOf(scenario, portsOf(network, { x, v, restamp() {} }), new Log(scenario.tick_s));
  const task = new Smoothing(site, values);
  const load = 135_600;
  task.smoothed_W = load;
  x[sensor.offset] = load;
  // The middle of the schedule asks for the middle of the window.
  const wanted = (trays.energy_J(0, 28.8) + trays.energy_J(0, 43.2)) / 2;
  const { period_s } = values;
  for (let t = 0; t < 12 * tau; t += period_s) {
    task.signal.sample();
    task.run(Math.round(t / scenario.tick_s));
    for (let k = 0; k < trays.count; k++) {
      const P = trays.capacitorPower_W(k, trays.command_W[k]!);
      const u = x[capacitor + k]!;
      const C =
        trays.columns.capacitance_F[k]! *
        (1 + trays.columns.voltage_slope_ratio[k]! * (u / trays.columns.rated_voltage_V[k]! - 1));
      x[capacitor + k] = u - (period_s * P) / (u * C);
    }
  }
  const found = wanted - trays.energy_J(0, x[capacitor]!);
  offsets({ which: `τ ${tau} s, ${loss} W`, expected: loss * tau, found, tolerance: 1e-3 });
});
