/** No state to begin in: no voltages at which the bus rests, a load that drags it too low, or an intake past its limit. */
import { BadInput } from '../base/problem.ts';
import type { Network } from '../network/network.ts';
import type { Stepper } from './stepper.ts';

/** `rests`: whether the search for voltages has come to rest; otherwise they mean nothing. Throws BadInput. */
export function refuseUnsettled(
  { sleds, intakes, scenario }: Network,
  stepper: Stepper,
  rests: boolean,
): void {
  const load_W = sleds.demand0_W.reduce((a, p) => a + p, 0);
  const refuse = (why: string, expected: string, mend: string): never => {
    const found = `a start at ${(load_W / 1e3).toFixed(1)} kW, ${why}`;
    const origin = scenario.origins.get('load');
    throw new BadInput([{ severity: 'error', ...origin, path: 'load', found, expected, mend }]);
  };
  if (!rests)
    refuse(
      'for which no voltages were found at which the bus rests',
      'a load that the cabinet can carry',
      'lower the load, or add shelves or bars',
    );
  for (let k = 0; k < sleds.count; k++) {
    const v = stepper.v0[sleds.node[k]!]!;
    const least_V = sleds.columns.constant_power_voltage_V[k]!;
    if (v > least_V) continue;
    refuse(
      `where ${sleds.names[k]} would sit at ${v.toFixed(2)} V`,
      `an operating point with every sled above ${least_V} V`,
      'lower the load, or add shelves or bars',
    );
  }
  for (let k = 0; k < intakes.count; k++) {
    const p = intakes.power_W(k, stepper.x0);
    const limit_W = intakes.columns.limit_W[k]!;
    if (p <= limit_W) continue;
    refuse(
      `for which ${intakes.names[k]} needs ${(p / 1e3).toFixed(1)} kW from AC`,
      `no more than its input power limit of ${(limit_W / 1e3).toFixed(1)} kW`,
      'lower the load, or add shelves',
    );
  }
}
