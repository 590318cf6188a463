import { Intakes } from '../../devices/intake/intake.ts';
import { LineRipple, modulesByPhase } from '../../devices/intake/line-ripple.ts';
import { LoadCurve } from '../../devices/intake/load-curve.ts';
import type { Stages } from '../../devices/stage/stage.ts';
import { powerFactors } from '../../scenario/derived/line-current-points.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { column, columnsOf, ids } from './column.ts';
import { rated_A, rated_W } from './stages.ts';

/** Intake k feeds stage k: rectifier shelves come first among the stages. */
export function intakesOf(scenario: Scenario, stages: Stages, offset: number): Intakes {
  const { shelves, tick_s } = scenario;
  const feeders = new Map(scenario.feeders.map((feeder) => [feeder.id, feeder.values]));
  return new Intakes(
    {
      names: ids(shelves),
      ...columnsOf(shelves, [
        'bulk_voltage_V',
        'bulk_voltage_min_V',
        'power_lag_s',
        'power_limit_ratio',
        'walk_in_margin_ratio',
        'dc_loss_fixed_W',
        'dc_loss_linear_V',
        'dc_loss_square_ohm',
        'ac_loss_fixed_W',
        'ac_loss_linear_ratio',
        'ac_loss_square_per_W',
      ]),
      bulk_F: column(shelves, (s) => s.values.module_count_count * s.values.module_bulk_capacitance_F),
      restart_V: column(shelves, (s) => s.values.bulk_restart_ratio * s.values.bulk_voltage_V),
      bandwidth_rad_per_s: column(shelves, (s) => 2 * Math.PI * s.values.power_loop_Hz),
      limit_W: column(shelves, (s) => s.values.power_limit_ratio * rated_W(s)),
      walkIn_W_per_s: column(shelves, (s) => (s.values.power_limit_ratio * rated_W(s)) / s.values.walk_in_s),
      lineVoltage_V: column(
        shelves,
        (s) => Math.sqrt(3) * feeders.get(s.feeder)!.line_voltage_V * s.values.power_factor_ratio,
      ),
      currentLimit_A: column(shelves, (s) => s.values.current_limit_ratio * rated_A(s)),
      outputLimit_W: column(shelves, (s) => s.values.output_power_limit_ratio * rated_W(s)),
    },
    new LoadCurve(shelves.map(({ values }) => powerFactors(values))),
    new LineRipple(
      modulesByPhase(shelves.map((s) => ({ feeder: s.feeder, modules: s.values.module_count_count }))),
      column(shelves, (s) => s.values.line_ripple_ratio),
      column(shelves, (s) => feeders.get(s.feeder)!.frequency_Hz * tick_s),
    ),
    stages,
    offset,
  );
}
