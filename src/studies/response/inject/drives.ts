/** Summing points at which a sine is put into a run, and the curves of a response that it gives. */
import { BadInput } from '../../../base/problem.ts';
import type { Cabinet } from '../../../engine/cabinet.ts';
import { unknownName } from '../places.ts';
import { followed } from '../wanted.ts';

/** Where it is put in, as it is named on the command line, with its unit and an amplitude that is small beside what the cabinet bears. */
export const summingPoints = {
  load: { unit: 'power', means: 'the load, all sleds by their share', usual: 200 },
  'set points': { unit: 'voltage', means: 'the set points of all shelves that give power', usual: 5e-3 },
  'set point': {
    unit: 'voltage',
    means: "one shelf's set point against the others': where its trim is added",
    usual: 5e-3,
  },
  current: {
    unit: 'current',
    means: "a current into a sled's node, as an electronic load there swings",
    usual: 1,
  },
  'bulk reference': { unit: 'voltage', means: "the reference of one shelf's power loop", usual: 0.5 },
} as const;

export type SummingPoint = keyof typeof summingPoints;

export const summingPointNames = Object.keys(summingPoints) as readonly SummingPoint[];

/** A quantity of the run over what was put in, in the unit of the curve that it belongs to. */
export interface Reading {
  readonly curve: string;
  /** A loop gain of what comes back: L = H/(1 − H). */
  readonly isLoop: boolean;
  read(x: Float64Array, v: Float64Array): number;
}

export interface Injection {
  /**
   * A set point holds through a step, but a sampled voltage loop reads it at its own ticks; a current is that at a step's end, and the
   * trapezoid takes a straight line to it.
   */
  readonly acts: 'through a step' | 'when sampled' | 'at its end';
  /** Puts a value onto the summing point; of the load nothing: its demand carries the sine. */
  put(value: number): void;
  /** What of it is taken at node voltages: a current is a conductance that swings, and is what it draws. */
  taken(value: number, v: Float64Array): number;
  readonly readings: readonly Reading[];
}

/** `node`: the node that set points are read at; `shelf`: whose set point or reference is moved, by place. */
export function injectionAt(
  point: SummingPoint,
  cabinet: Cabinet,
  { node, shelf }: { readonly node: number; readonly shelf: number },
): Injection {
  const { network } = cabinet;
  const { stages, intakes, packs, shelfCount, scenario } = network;
  const running = [...stages.running.keys()].filter(
    (k) => stages.running[k] === 1 && (k < shelfCount || k >= packs.firstStage),
  );
  const shelves = running.filter((k) => k < shelfCount);
  const rest_V = stages.setPoint_V.slice();
  const current = (x: Float64Array, k: number): number => x[stages.place('current_A', k)]!;
  const taken = (value: number): number => value;
  const isSampled = shelves.some((k) => scenario.shelves[k]!.values.loop_period_s > 0);
  const reads = isSampled ? 'when sampled' : 'through a step';
  switch (point) {
    case 'load':
      return {
        acts: 'through a step',
        taken,
        put: () => {},
        readings: [
          {
            curve: followed,
            isLoop: false,
            read: (x) => scenario.nominal_V * shelves.reduce((sum, k) => sum + current(x, k), 0),
          },
          { curve: 'load to AC power', isLoop: false, read: (x) => acPower_W(cabinet, x) },
        ],
      };
    case 'set points':
      return {
        acts: reads,
        taken,
        put: (value) => {
          for (const k of running) stages.setPoint_V[k] = rest_V[k]! + value;
        },
        readings: [
          {
            curve: `set points to ${network.topology.nodes[node]}`,
            isLoop: false,
            read: (_, v) => v[node]!,
          },
        ],
      };
    case 'set point': {
      if (shelves.length < 2)
        throw new BadInput([
          {
            severity: 'error',
            path: '--inject',
            found: `set point, where ${stages.names[shelf]} is the only shelf that runs`,
            expected: 'another shelf to share the load with',
            mend: 'take "set points", which moves that of all shelves',
          },
        ]);
      const mean = 1 / shelves.length;
      return {
        acts: reads,
        taken,
        put: (value) => {
          for (const k of shelves) stages.setPoint_V[k] = rest_V[k]! + value * ((k === shelf ? 1 : 0) - mean);
        },
        readings: [
          {
            curve: `set point of ${stages.names[shelf]} to its share`,
            isLoop: false,
            read: (x) =>
              shelves.reduce(
                (sum, k) =>
                  sum + (((k === shelf ? 1 : 0) - mean) * current(x, k)) / stages.columns.rated_A[k]!,
                0,
              ),
          },
        ],
      };
    }
    case 'current': {
      const { sleds } = network;
      const k = sleds.node.indexOf(node);
      if (k < 0) throw unknownName('sled', network.topology.nodes[node]!, sleds.names);
      const [at_V, at_S] = [cabinet.stepper.v0[node]!, sleds.short_S[k]!];
      return {
        acts: 'at its end',
        taken: (value, v) => (value * v[node]!) / at_V,
        put: (value) => {
          sleds.short_S[k] = at_S - value / at_V;
        },
        readings: [
          {
            curve: `impedance at ${network.topology.nodes[node]}`,
            isLoop: false,
            read: (_, v) => v[node]!,
          },
        ],
      };
    }
    case 'bulk reference': {
      const reference_V = intakes.columns.bulk_voltage_V;
      const at_V = reference_V[shelf]!;
      return {
        acts: 'through a step',
        taken,
        put: (value) => {
          reference_V[shelf] = at_V + value;
        },
        readings: [
          {
            curve: `power loop of ${stages.names[shelf]}`,
            isLoop: true,
            read: (x) => x[intakes.place('bulk_V', shelf)]!,
          },
        ],
      };
    }
  }
}

function acPower_W({ network: { intakes } }: Cabinet, x: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < intakes.count; k++) {
    const power_W = x[intakes.place('power_W', k)]!;
    sum += power_W + intakes.acLoss_W(k, power_W);
  }
  return sum;
}
