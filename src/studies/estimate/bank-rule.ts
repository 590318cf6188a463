/** Rule 13: capacitors straight on the bus, for the first milliseconds of an edge. */
import type { ReadScenario } from '../../scenario/read.ts';
import { busCapacitance_F, crossover_rad_per_s, droop_ohm } from './bus-facts.ts';
import type { EstimateLine } from './line.ts';
import { A, F, Hz, V } from './print.ts';
import type { LoadSwing } from './swing.ts';

/**
 * C ≥ (2/e) ΔI/(ω_c (ΔV − R_d ΔI)): the dip of a voltage loop with double zero damping, beside the droop. ω_c is
 * the crossover of the fitted gain on the fitted capacitance; ΔV the room from half load to the 2 ms row.
 */
export function bankRule({ scenario }: ReadScenario, swing: LoadSwing): EstimateLine {
  const { shelves, limits, nominal_V } = scenario;
  const C = busCapacitance_F(scenario);
  const w = crossover_rad_per_s(scenario);
  const droop = droop_ohm(scenario);
  const dI = (swing.high_W - swing.low_W) / nominal_V;
  const row = limits.find(
    ({ quantity, side, stay_s }) => quantity === 'bus-stay' && side === 'lower' && stay_s === 0.002,
  );
  const noLoad =
    shelves.reduce((sum, { values }) => sum + values.set_point_V, 0) / Math.max(1, shelves.length);
  const start = noLoad - (droop * swing.low_W) / nominal_V;
  const floor = (row?.normal ?? 0.93) * nominal_V;
  const room = start - floor - droop * dI;
  const asked = ((2 / Math.E) * dI) / (w * room);
  return {
    rule: 13,
    title: 'Passive bank',
    about: '',
    formula: 'C ≥ (2/e) ΔI/(ω_c (ΔV − R_d ΔI)), ω_c = Σ K_p/C',
    numbers: `ΔI ${A(dI)}, ω_c/2π ${Hz(w / (2 * Math.PI))} on ${F(C)}, from ${V(start)} to ${V(floor)} with ${V(droop * dI)} droop: ${F(asked)}`,
    asks:
      asked <= C
        ? `${F(asked)}; the whole bus has ${F(C)}. The lumped rule shows about half the dip at a sled`
        : `${F(asked)}, ${F(asked - C)} more than the bus has`,
    trays: null,
  };
}
