/** Where the cabinet is moved and read for its curves: inputs and readings by name. */

import { BadInput } from '../../base/problem.ts';
import type { Cabinet } from '../../engine/cabinet.ts';
import type { Drive } from '../../linear/curves.ts';
import type { PlantReading } from '../../linear/plant.ts';
import type { PlantInput } from '../../linear/plant-input.ts';
import { linearise, type Sampled } from '../../linear/sampled.ts';
import { listed, nearestWords } from '../../scenario/text/nearest.ts';

export interface Places {
  readonly system: Sampled;
  /** All sleds by their share of the load [W]. */
  readonly load: Drive;
  /** Set point of every shelf that gives power, battery shelves among them, together [V]. */
  readonly setPoints: Drive;
  /** Set point of one shelf [V], those of all in turn whose stage has its own voltage loop. */
  readonly setPoint: readonly Drive[];
  /** One shelf's set point against the others': it up, they down, the mean kept [V]. */
  readonly unevenSetPoint: Drive;
  /** Bulk reference of the first running shelf [V]. */
  readonly bulkReference: Drive;
  /** Current into a node [A]. */
  current(node: number): Drive;
  readonly rectifierCurrent: PlantReading;
  readonly acPower: PlantReading;
  readonly bulk: PlantReading;
  /** What comes back to the error of each of these loops [V]: minus sensed voltage and droop. */
  readonly fedBack: readonly PlantReading[];
  /** Deviation of the first running shelf's per-unit current from the mean. */
  readonly shareError: PlantReading;
  voltage(node: number): PlantReading;
  /** Places of commands by task, in the order of the system's commands; trays that are out, or hold still while AC is lost, have none. */
  readonly trims: readonly number[];
  readonly trays: readonly number[];
  /** Of the running shelves whose voltage loops are sampled: their current commands. */
  readonly currents: readonly number[];
  readonly shelf: string;
  /** Whether a rectifier shelf runs at all; where none does, its loops are none. */
  readonly runs: boolean;
  /** More than one rectifier shelf runs: each has a share of the load. */
  readonly shares: boolean;
}

/** Linearises a cabinet at rest with every drive and reading. `shelf`: whose loops are shown. */
export function placesOf(cabinet: Cabinet, nodes: readonly number[], shelf: string | null): Places {
  const { network } = cabinet;
  const { stages, sleds, intakes, packs, trays, shelfCount } = network;
  const running = Array.from({ length: shelfCount }, (_, k) => k).filter((k) => stages.running[k] === 1);
  const carrying = packs.names.map((_, k) => packs.firstStage + k).filter((k) => stages.running[k] === 1);
  const sources = [...running, ...carrying];
  const isCommanded = (k: number): boolean => stages.columns.isCommanded[k] === 1;
  const looped = sources.filter((k) => !isCommanded(k));
  const own = shelf === null ? (running[0] ?? 0) : stages.names.slice(0, shelfCount).indexOf(shelf);
  if (own < 0) throw unknownName('shelf', shelf!, stages.names.slice(0, shelfCount));
  if (shelf !== null && running.length > 0 && !running.includes(own))
    throw unknownName(
      'running shelf',
      shelf,
      running.map((k) => stages.names[k]!),
    );
  const inputs: PlantInput[] = [
    ...sleds.names.map(
      (name, place): PlantInput => ({
        kind: 'value',
        name: `${name} demand`,
        target: sleds.demand0_W,
        place,
      }),
    ),
    ...sources.map(
      (place): PlantInput => ({
        kind: 'value',
        name: `${stages.names[place]} set point`,
        target: stages.setPoint_V,
        place,
      }),
    ),
    { kind: 'value', name: 'bulk reference', target: intakes.columns.bulk_voltage_V, place: own },
    ...trays.names.map(
      (name, place): PlantInput => ({ kind: 'value', name: `${name} push`, target: trays.command_W, place }),
    ),
    ...nodes.map((node): PlantInput => ({ kind: 'current', name: network.topology.nodes[node]!, node })),
  ];
  const system = linearise(cabinet, inputs);
  const first = system.commandCount;
  const sledAt = first;
  const setAt = sledAt + sleds.count;
  const bulkAt = setAt + sources.length;
  const pushAt = bulkAt + 1;
  const nodeAt = pushAt + trays.count;
  const drive = (name: string, weights: readonly [number, number][]): Drive => ({
    name,
    weights: weights.map(([input, weight]) => ({ input, weight })),
  });
  const reading = (fill: (cx: Float64Array, cv: Float64Array) => void): PlantReading => {
    const cx = new Float64Array(network.stateCount);
    const cv = new Float64Array(network.nodeCount);
    fill(cx, cv);
    return system.plant.read(cx, cv);
  };
  const commandNames = system.labels.slice(system.plant.n, system.plant.n + first);
  const count = running.length;
  return {
    system,
    shelf: stages.names[own]!,
    runs: running.length > 0,
    shares: running.length > 1,
    load: drive(
      'load',
      sleds.names.map((_, k) => [sledAt + k, sleds.columns.share_ratio[k]!]),
    ),
    setPoints: drive(
      'set points',
      sources.map((_, k) => [setAt + k, 1]),
    ),
    setPoint: looped.map((k) => drive(`set point of ${stages.names[k]}`, [[setAt + sources.indexOf(k), 1]])),
    unevenSetPoint: drive(
      `set point of ${stages.names[own]} against the others`,
      running.map((k, j) => [setAt + j, (k === own ? 1 : 0) - 1 / count]),
    ),
    bulkReference: drive('bulk reference', [[bulkAt, 1]]),
    current(node) {
      const at = nodes.indexOf(node);
      if (at < 0) throw new RangeError(`node ${node} was not asked for`);
      return drive('current', [[nodeAt + at, 1]]);
    },
    rectifierCurrent: reading((cx) => {
      for (let k = 0; k < shelfCount; k++) cx[stages.place('current_A', k)] = 1;
    }),
    acPower: reading((cx) => {
      for (let k = 0; k < intakes.count; k++) {
        const at = intakes.place('power_W', k);
        const p = cabinet.stepper.x0[at]!;
        const d = 1e-3 * Math.max(1, p);
        cx[at] = 1 + (intakes.acLoss_W(k, p + d) - intakes.acLoss_W(k, p - d)) / (2 * d);
      }
    }),
    bulk: reading((cx) => {
      cx[intakes.place('bulk_V', own)] = 1;
    }),
    fedBack: looped.map((k) =>
      reading((cx, cv) => {
        cv[stages.node[k]!] = -1;
        cx[stages.place('droop_filter_A', k)] = -stages.columns.droop_ohm[k]!;
        if (stages.columns.control_delay_s[k]! > 0) cx[stages.place('delay_2_V', k)] = 2;
      }),
    ),
    shareError: reading((cx) => {
      for (const k of running) {
        cx[stages.place('current_A', k)] = ((k === own ? 1 : 0) - 1 / count) / stages.columns.rated_A[k]!;
      }
    }),
    voltage: (node) =>
      reading((_, cv) => {
        cv[node] = 1;
      }),
    trims: running.map((k) => commandNames.indexOf(`${stages.names[k]} trim command`)),
    currents: running
      .filter(isCommanded)
      .map((k) => commandNames.indexOf(`${stages.names[k]} current command`)),
    trays: cabinet.controls.acSignal.lost
      ? []
      : trays.names
          .filter((_, k) => trays.alive[k] === 1)
          .map((name) => commandNames.indexOf(`${name} command`)),
  };
}

/** Bad input for a name that the cabinet does not have. */
export function unknownName(what: string, found: string, known: readonly string[]): BadInput {
  const near = nearestWords(found, known);
  return new BadInput([
    {
      severity: 'error',
      path: what,
      found: `${found}, which the cabinet does not have`,
      expected: `one of ${known.slice(0, 12).join(', ')}${known.length > 12 ? ' …' : ''}`,
      mend: near.length === 0 ? `name a ${what} of the cabinet` : `perhaps ${listed(near)}`,
    },
  ]);
}
