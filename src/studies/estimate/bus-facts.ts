/** What the bus is as one lump: all capacitance in parallel, all droops in parallel, one crossover. */
import type { Scenario } from '../../scenario/scenario.ts';
import { staticDroop_ohm } from '../../scenario/static-droop.ts';

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/** Of shelves, banks, trays, batteries, sleds and the rack bar's nodes [F]. */
export function busCapacitance_F({ shelves, banks, trays, batteries, sleds, bars }: Scenario): number {
  return (
    sum(shelves.map(({ values }) => values.output_capacitance_F)) +
    sum(banks.map(({ values }) => values.capacitance_F)) +
    sum(trays.map(({ values }) => values.output_capacitance_F)) +
    sum(batteries.map(({ values }) => values.output_capacitance_F)) +
    sum(sleds.map(({ values }) => values.input_capacitance_F)) +
    sleds.length * bars.rackNode.capacitance_F
  );
}

/** ω_c = Σ K_p/C: crossover of the fitted gain on the fitted capacitance [rad/s]. */
export function crossover_rad_per_s(scenario: Scenario): number {
  return (
    sum(scenario.shelves.map(({ values }) => values.proportional_gain_A_per_V)) / busCapacitance_F(scenario)
  );
}

/** Droop of all shelves together [Ω]. */
export function droop_ohm({ shelves }: Scenario): number {
  return (
    1 /
    sum(
      shelves.map(
        ({ values }) =>
          1 /
          staticDroop_ohm(values.droop_ohm, values.integral_gain_A_per_Vs, values.proportional_gain_A_per_V),
      ),
    )
  );
}
