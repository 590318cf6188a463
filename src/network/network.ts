/**
 * The network: the scenario as nodes, bars and columns of parameters, one set per device kind. What the
 * engine steps; made anew for every run, for it also holds the commands that firmware writes.
 */
import type { Int } from '../base/int.ts';
import type { Banks } from '../devices/bank/bank.ts';
import type { Bars } from '../devices/bar/bar.ts';
import type { Branches } from '../devices/branch/branch.ts';
import type { Capacitors } from '../devices/capacitor/capacitor.ts';
import type { Device } from '../devices/device.ts';
import { Display } from '../devices/display/display.ts';
import type { Intakes } from '../devices/intake/intake.ts';
import type { Packs } from '../devices/pack/pack.ts';
import { Sensor } from '../devices/sensor/sensor.ts';
import type { Sleds } from '../devices/sled/sled.ts';
import type { Stages } from '../devices/stage/stage.ts';
import type { Supplies } from '../devices/supply/supply.ts';
import type { Suppressors } from '../devices/suppressor/suppressor.ts';
import type { Trays } from '../devices/tray/tray.ts';
import { type Ordering, order } from '../nodal/ordering.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { banksOf } from './columns/banks.ts';
import { barsOf } from './columns/bars.ts';
import { bankBranchesOf, trayBranchesOf } from './columns/branches.ts';
import { capacitorsOf } from './columns/capacitors.ts';
import { intakesOf } from './columns/intakes.ts';
import { packsOf } from './columns/packs.ts';
import { sledsOf } from './columns/sleds.ts';
import { stagesOf } from './columns/stages.ts';
import { suppliesOf } from './columns/supplies.ts';
import { suppressorsOf } from './columns/suppressors.ts';
import { traysOf } from './columns/trays.ts';
import { type Currents, currentsOf } from './currents.ts';
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
  /** Of the feeders that give way. */
  readonly supplies: Supplies;
  readonly trays: Trays;
  readonly sleds: Sleds;
  readonly packs: Packs;
  readonly sensor: Sensor;
  /** Of the sleds that have one. */
  readonly suppressors: Suppressors;
  /** Slow branches of the trays and of the banks that have one. */
  readonly trayBranches: Branches;
  readonly bankBranches: Branches;
  /** What controllers of the user's own let be seen. */
  readonly display: Display;
  /** Every kind, in the order of the state vector. */
  readonly devices: readonly Device[];
  readonly stateCount: Int;
  readonly nodeCount: Int;
  readonly currents: Currents;
}

/** Builds the network of a scenario. Throws BadInput where sleds are not fed. */
export function assemble(scenario: Scenario): Network {
  const topology = layOut(scenario);
  const devices: Device[] = [];
  let offset = 0;
  const place = <D extends Device>(kind: (offset: number) => D): D => {
    const device = kind(offset);
    devices.push(device);
    offset += device.count * device.states.length;
    return device;
  };
  const bars = place((at) => barsOf(topology, at));
  const capacitors = place((at) => capacitorsOf(scenario, topology, at));
  const banks = place((at) => banksOf(scenario, topology, at));
  const stages = place((at) => stagesOf(scenario, topology, at));
  const intakes = place((at) => intakesOf(scenario, stages, at));
  const trays = place((at) => traysOf(scenario, topology, at));
  const sleds = place((at) => sledsOf(scenario, topology, at));
  const packs = place((at) => packsOf(scenario, stages, at));
  const sensor = place((at) => new Sensor(scenario.firmware.smoothing.filter_corner_Hz, stages, trays, at));
  const supplies = place((at) => suppliesOf(scenario, intakes, at));
  const suppressors = place((at) => suppressorsOf(scenario, topology, at));
  // After what they stand beside, to whose slopes they add.
  const trayBranches = place((at) => trayBranchesOf(scenario, trays, at));
  const bankBranches = place((at) => bankBranchesOf(scenario, banks, at));
  const nodeCount = topology.nodes.length;
  return {
    scenario,
    topology,
    ordering: order(
      nodeCount,
      topology.bars.map(({ from, to }) => [from, to] as const),
    ),
    barPieces: topology.bars,
    bars,
    capacitors,
    banks,
    stages,
    shelfCount: scenario.shelves.length,
    batteryCount: scenario.batteries.length,
    intakes,
    supplies,
    trays,
    sleds,
    packs,
    sensor,
    suppressors,
    trayBranches,
    bankBranches,
    display: new Display(
      scenario.controllers.flatMap(({ replaces, shows }) =>
        shows.map(({ quantity, unit }) => ({ owner: replaces, quantity, unit })),
      ),
    ),
    devices,
    stateCount: offset,
    nodeCount,
    currents: currentsOf({ bars, capacitors, banks, stages, trays, sleds, suppressors }, nodeCount),
  };
}
