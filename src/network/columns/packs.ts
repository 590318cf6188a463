import { Packs } from '../../devices/pack/pack.ts';
import type { Stages } from '../../devices/stage/stage.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { column, columnsOf, ids } from './column.ts';
import { meanOpenCircuit_V, openCircuit_V } from './open-circuit.ts';

/** Packs stand behind the stages of the battery shelves. */
export function packsOf({ shelves, batteries }: Scenario, stages: Stages, offset: number): Packs {
  return new Packs(
    {
      names: ids(batteries),
      ...columnsOf(batteries, [
        'charge_ratio',
        'efficiency_ratio',
        'polarisation_time_s',
        'thermal_resistance_K_per_W',
        'thermal_time_s',
        'ambient_degC',
      ]),
      charge_C: column(batteries, (b) => b.values.energy_J / meanOpenCircuit_V(b.values)),
      openCircuit_V: Float64Array.from(batteries.flatMap((b) => openCircuit_V(b.values))),
      resistance_ohm: column(batteries, (b) => b.values.pack_resistance_ohm / b.values.module_count_count),
      polarisation_ohm: column(
        batteries,
        (b) => b.values.polarisation_resistance_ohm / b.values.module_count_count,
      ),
    },
    stages,
    shelves.length,
    offset,
  );
}
