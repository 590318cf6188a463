import type { Intakes } from '../../devices/intake/intake.ts';
import { LoadCurve } from '../../devices/intake/load-curve.ts';
import { Supplies } from '../../devices/supply/supply.ts';
import { tangents } from '../../scenario/derived/line-current-points.ts';
import { impedanceOf } from '../../scenario/derived/supply-impedance.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { column, ids } from './column.ts';

/** One for each feeder that gives way and carries shelves. */
export function suppliesOf(scenario: Scenario, intakes: Intakes, offset: number): Supplies {
  const { shelves, cabinets_on_feeder_count } = scenario;
  const giving = scenario.feeders.filter(
    ({ id, values }) => values.gives_way_ratio > 0 && shelves.some(({ feeder }) => feeder === id),
  );
  const impedances = giving.map(({ values }) => impedanceOf(values));
  return new Supplies(
    {
      names: ids(giving),
      nominal_V: column(giving, ({ values }) => values.line_voltage_V),
      resistance_ohm: Float64Array.from(impedances, ({ resistance_ohm }) => resistance_ohm),
      reactance_ohm: Float64Array.from(impedances, ({ reactance_ohm }) => reactance_ohm),
      impedance_ohm: Float64Array.from(impedances, ({ impedance_ohm }) => impedance_ohm),
      cabinets: new Float64Array(giving.length).fill(cabinets_on_feeder_count),
    },
    Int32Array.from(shelves, ({ feeder }) => giving.findIndex(({ id }) => id === feeder)),
    new LoadCurve(shelves.map(({ values }) => tangents(values))),
    intakes,
    offset,
  );
}
