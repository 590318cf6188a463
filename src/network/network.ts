/**
 * The network: the scenario as nodes, bars and columns of parameters, one set per device kind. What the
 * engine steps; made anew for every run, for it also holds the commands that firmware writes.
 */

import type { Int } from '../base/int.ts';
import { Banks } from '../devices/bank/bank.ts';
import { Bars } from '../devices/bar/bar.ts';
import { Capacitors } from '../devices/capacitor/capacitor.ts';
import type { Device } from '../devices/device.ts';
import { Intakes } from '../devices/intake/intake.ts';
import { LineRipple, modulesByPhase } from '../devices/intake/line-ripple.ts';
import { Packs } from '../devices/pack/pack.ts';
import { Sensor } from '../devices/sensor/sensor.ts';
import { Sleds } from '../devices/sled/sled.ts';
import { Stages } from '../devices/stage/stage.ts';
import { Trays } from '../devices/tray/tray.ts';
import { type Ordering, order } from '../nodal/ordering.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { meanOpenCircuit_V, openCircuit_V } from './open-circuit.ts';
import { type BarPiece, layOut, type Topology } from './topology.ts';

export interface Network {
  readonly scenario: Scenario;
  readonly topology: Topology;
  readonly ordering: Ordering;
  readonly bars: Bars;
  readonly barPieces: readonly BarPiece[];
  readonly capacitors: Capacitors;
  readonly banks: Banks;
  /** Output stages: rectifier shelves first, battery shelves after them. */
  readonly stages: Stages;
  readonly shelfCount: Int;
  readonly batteryCount: Int;
  readonly intakes: Intakes;
  readonly trays: Trays;
  readonly sleds: Sleds;
  readonly packs: Packs;
  readonly sensor: Sensor;
  /** Every kind, in the order of the state vector. */
  readonly devices: readonly Device[];
  readonly stateCount: Int;
  readonly nodeCount: Int;
}

/** A column of one field over units. */
function column<T>(units: readonly T[], read: (unit: T) => number): Float64Array {
  return Float64Array.from(units, read);
}

/** Builds the network of a scenario. Throws BadInput where sleds are not fed. */
export function assemble(scenario: Scenario): Network {
  const topology = layOut(scenario);
  const { nodeOf, bars: pieces, rackNodes } = topology;
  const { shelves, trays, batteries, banks, sleds } = scenario;
  const nodesOf = (units: readonly { id: string }[]): Int32Array =>
    Int32Array.from(units, (unit) => nodeOf.get(unit.id)!);
  const ids = (units: readonly { id: string }[]): string[] => units.map((unit) => unit.id);
  let offset = 0;
  const devices: Device[] = [];
  const place = <D extends Device>(device: D): D => {
    devices.push(device);
    offset += device.count * device.states.length;
    return device;
  };

  const barKind = place(
    new Bars(
      {
        names: ids(pieces),
        from: Int32Array.from(pieces, (b) => b.from),
        to: Int32Array.from(pieces, (b) => b.to),
        resistance_ohm: column(pieces, (b) => b.resistance_ohm),
        inductance_H: column(pieces, (b) => b.inductance_H),
      },
      offset,
    ),
  );
  pieces.forEach((piece, k) => {
    if (!piece.closed) barKind.setOpen(k, true);
  });

  const outputs = [
    ...[...shelves, ...trays, ...batteries].map((unit) => ({
      name: `${unit.id}.output`,
      node: nodeOf.get(unit.id)!,
      C: unit.values.output_capacitance_F,
      r: unit.values.output_esr_ohm,
    })),
    ...sleds.flatMap(({ id, values }) => [
      { name: `${id}.input`, node: nodeOf.get(id)!, C: values.input_capacitance_F, r: values.input_esr_ohm },
      {
        name: `${id}.ceramic`,
        node: nodeOf.get(id)!,
        C: values.ceramic_capacitance_F,
        r: values.ceramic_esr_ohm,
      },
    ]),
    ...rackNodes.map((node) => ({
      name: `${topology.nodes[node]}.shunt`,
      node,
      C: scenario.bars.rackNode.capacitance_F,
      r: scenario.bars.rackNode.esr_ohm,
    })),
  ];
  const capacitors = place(
    new Capacitors(
      {
        names: outputs.map((c) => c.name),
        node: Int32Array.from(outputs, (c) => c.node),
        capacitance_F: column(outputs, (c) => c.C),
        esr_ohm: column(outputs, (c) => c.r),
      },
      offset,
    ),
  );

  const bankKind = place(
    new Banks(
      {
        names: ids(banks),
        node: nodesOf(banks),
        capacitance_F: column(banks, (b) => b.values.capacitance_F),
        resistance_ohm: column(banks, (b) => b.values.esr_ohm + b.values.connection_ohm),
        inductance_H: column(banks, (b) => b.values.esl_H),
      },
      offset,
    ),
  );

  const converters = [...shelves, ...batteries];
  const ratedCurrent = (c: (typeof converters)[number]): number =>
    (c.values.module_count_count * c.values.module_power_W) / c.values.rated_voltage_V;
  const stages = place(
    new Stages(
      {
        names: ids(converters),
        node: nodesOf(converters),
        proportional_A_per_V: column(converters, (c) => c.values.proportional_gain_A_per_V),
        integral_A_per_Vs: column(converters, (c) => c.values.integral_gain_A_per_Vs),
        droop_ohm: column(converters, (c) => c.values.droop_ohm),
        droopFilter_s: column(converters, (c) => c.values.droop_filter_time_s),
        currentLag_s: column(converters, (c) => c.values.current_lag_s),
        delay_s: column(converters, (c) => c.values.control_delay_s),
        slew_A_per_s: column(converters, (c) => c.values.slew_limit_A_per_s),
        rated_A: column(converters, ratedCurrent),
        foldBack_V: column(converters, (c) => c.values.fold_back_ratio * c.values.rated_voltage_V),
      },
      offset,
    ),
  );
  converters.forEach((c, k) => {
    stages.limit0_A[k] = c.values.current_limit_ratio * ratedCurrent(c);
    stages.limit1_A[k] = stages.limit0_A[k]!;
  });
  shelves.forEach((shelf, k) => {
    stages.setPoint_V[k] = shelf.values.set_point_V * (1 + shelf.values.set_point_offset_ratio);
    stages.running[k] = 1;
  });

  const rated_W = (s: (typeof shelves)[number]): number =>
    s.values.module_count_count * s.values.module_power_W;
  const feeders = new Map(scenario.feeders.map((feeder) => [feeder.id, feeder.values]));
  const intakes = place(
    new Intakes(
      {
        names: ids(shelves),
        bulk_F: column(shelves, (s) => s.values.module_count_count * s.values.module_bulk_capacitance_F),
        reference_V: column(shelves, (s) => s.values.bulk_voltage_V),
        minimum_V: column(shelves, (s) => s.values.bulk_voltage_min_V),
        restart_V: column(shelves, (s) => s.values.bulk_restart_ratio * s.values.bulk_voltage_V),
        bandwidth_rad_per_s: column(shelves, (s) => 2 * Math.PI * s.values.power_loop_Hz),
        lag_s: column(shelves, (s) => s.values.power_lag_s),
        limit_W: column(shelves, (s) => s.values.power_limit_ratio * rated_W(s)),
        walkIn_W_per_s: column(
          shelves,
          (s) => (s.values.power_limit_ratio * rated_W(s)) / s.values.walk_in_s,
        ),
        walkInMargin: column(shelves, (s) => s.values.walk_in_margin_ratio),
        dcFixed_W: column(shelves, (s) => s.values.dc_loss_fixed_W),
        dcLinear_V: column(shelves, (s) => s.values.dc_loss_linear_V),
        dcSquare_ohm: column(shelves, (s) => s.values.dc_loss_square_ohm),
        acFixed_W: column(shelves, (s) => s.values.ac_loss_fixed_W),
        acLinear: column(shelves, (s) => s.values.ac_loss_linear_ratio),
        acSquare_per_W: column(shelves, (s) => s.values.ac_loss_square_per_W),
        lineVoltage_V: column(
          shelves,
          (s) => Math.sqrt(3) * feeders.get(s.feeder)!.line_voltage_V * s.values.power_factor_ratio,
        ),
        currentLimit_A: column(shelves, (s) => s.values.current_limit_ratio * ratedCurrent(s)),
        outputLimit_W: column(shelves, (s) => s.values.output_power_limit_ratio * rated_W(s)),
      },
      new LineRipple(
        modulesByPhase(shelves.map((s) => ({ feeder: s.feeder, modules: s.values.module_count_count }))),
        column(shelves, (s) => s.values.line_ripple_ratio),
        column(shelves, (s) => feeders.get(s.feeder)!.frequency_Hz * scenario.tick_s),
      ),
      stages,
      offset,
    ),
  );

  const trayKind = place(
    new Trays(
      {
        names: ids(trays),
        node: nodesOf(trays),
        capacitance_F: column(trays, (t) => t.values.capacitance_F),
        voltageSlope: column(trays, (t) => t.values.voltage_slope_ratio),
        rated_V: column(trays, (t) => t.values.rated_voltage_V),
        esr_ohm: column(trays, (t) => t.values.esr_ohm),
        leakage_A: column(trays, (t) => t.values.leakage_A),
        low_V: column(trays, (t) => t.values.voltage_low_V),
        high_V: column(trays, (t) => t.values.voltage_high_V),
        lag_s: column(trays, (t) => t.values.power_lag_s),
        slew_W_per_s: column(trays, (t) => t.values.power_slew_W_per_s),
        efficiency: column(trays, (t) => t.values.efficiency_ratio),
        standing_W: column(trays, (t) => t.values.standing_loss_W),
        power_W: column(trays, (t) => t.values.power_limit_W),
        busCurrent_A: column(trays, (t) => t.values.bus_current_limit_A),
        foldBack_V: column(trays, (t) => t.values.fold_back_ratio * scenario.nominal_V),
        capacitorCurrent_A: column(trays, (t) => t.values.capacitor_current_limit_A),
        taper: column(trays, (t) => t.values.taper_ratio),
        dead_s: column(trays, (t) => t.values.dead_time_s),
        tripMargin: column(trays, (t) => t.values.trip_margin_ratio),
      },
      offset,
    ),
  );

  const sledKind = place(
    new Sleds(
      {
        names: ids(sleds),
        node: nodesOf(sleds),
        lag_s: column(sleds, (s) => s.values.power_lag_s),
        constantPower_V: column(sleds, (s) => s.values.constant_power_voltage_V),
        share: column(sleds, (s) => s.share_ratio),
        constantCurrent: column(sleds, (s) => s.values.constant_current_ratio),
        nominal_V: column(sleds, () => scenario.nominal_V),
      },
      offset,
    ),
  );

  const packs = place(
    new Packs(
      {
        names: ids(batteries),
        charge_C: column(batteries, (b) => b.values.energy_J / meanOpenCircuit_V(b.values)),
        startCharge: column(batteries, (b) => b.values.charge_ratio),
        efficiency: column(batteries, (b) => b.values.efficiency_ratio),
        openCircuit_V: Float64Array.from(batteries.flatMap((b) => openCircuit_V(b.values))),
        resistance_ohm: column(batteries, (b) => b.values.pack_resistance_ohm / b.values.module_count_count),
        polarisation_ohm: column(
          batteries,
          (b) => b.values.polarisation_resistance_ohm / b.values.module_count_count,
        ),
        polarisation_s: column(batteries, (b) => b.values.polarisation_time_s),
        thermal_K_per_W: column(batteries, (b) => b.values.thermal_resistance_K_per_W),
        thermal_s: column(batteries, (b) => b.values.thermal_time_s),
        ambient_degC: column(batteries, (b) => b.values.ambient_degC),
      },
      stages,
      shelves.length,
      offset,
    ),
  );

  const corner_Hz = scenario.firmware.smoothing.filter_corner_Hz;
  const sensor = place(new Sensor(corner_Hz, stages, trayKind, offset));

  return {
    scenario,
    topology,
    ordering: order(
      topology.nodes.length,
      pieces.map((b) => [b.from, b.to] as const),
    ),
    bars: barKind,
    barPieces: pieces,
    capacitors,
    banks: bankKind,
    stages,
    shelfCount: shelves.length,
    batteryCount: batteries.length,
    intakes,
    trays: trayKind,
    sleds: sledKind,
    packs,
    sensor,
    devices,
    stateCount: offset,
    nodeCount: topology.nodes.length,
  };
}
