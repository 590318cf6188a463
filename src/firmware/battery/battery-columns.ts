/** The battery shelves' firmware columns, from the scenario. */
import type { BatteryValues } from '../../scenario/parameters/battery.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { BatteryPhase } from './battery-phase.ts';
import type { HandoverColumns } from './handover.ts';
import type { FeederColumns, RechargeColumns } from './recharge.ts';

type ReadValue = (values: BatteryValues) => number;

const column = ({ batteries }: Scenario, read: ReadValue): Float64Array =>
  Float64Array.from(batteries, ({ values }) => read(values));

/** Does the cabinet charge any battery shelf? */
export function charges(scenario: Scenario): boolean {
  return scenario.batteries.some(({ values }) => values.charge_power_W > 0);
}

/** A shelf that begins a run less than full waits to be charged, if anything charges it. */
function firstPhase({ charge_ratio, charge_power_W }: BatteryValues): BatteryPhase {
  return charge_ratio < 1 && charge_power_W > 0 ? 'waiting' : 'asleep';
}

export function handoverColumns(scenario: Scenario): HandoverColumns {
  return {
    charges: scenario.batteries.map(({ values }) => values.charge_power_W > 0),
    first: scenario.batteries.map(({ values }) => firstPhase(values)),
    chargeMin: column(scenario, (v) => v.charge_min_ratio),
    voltageMin_V: column(scenario, (v) => v.voltage_min_ratio * v.pack_voltage_V),
    temperatureMax_degC: column(scenario, (v) => v.temperature_max_degC),
  };
}

export function rechargeColumns(scenario: Scenario): RechargeColumns {
  return {
    power_W: column(scenario, (v) => v.charge_power_W),
    end_ratio: column(scenario, (v) => v.charge_end_ratio),
    full_V: column(scenario, (v) => v.open_circuit_full_ratio * v.pack_voltage_V),
    temperatureMax_degC: column(scenario, (v) => v.temperature_max_degC),
    windows: scenario.batteries.map(({ values }) => ({
      coldStop_degC: values.charge_cold_stop_degC,
      cold_degC: values.charge_cold_degC,
      hot_degC: values.charge_hot_degC,
      hotStop_degC: values.charge_hot_stop_degC,
    })),
    feeders: feederColumns(scenario),
  };
}

function feederColumns({ feeders, shelves }: Scenario): FeederColumns {
  return {
    of: Int32Array.from(shelves, ({ feeder }) => feeders.findIndex(({ id }) => id === feeder)),
    count: feeders.length,
    breaker_A: Float64Array.from(feeders, ({ values }) => values.breaker_current_A),
  };
}
