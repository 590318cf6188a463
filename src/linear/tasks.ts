/**
 * Firmware tasks, differentiated by running their own code: memory and samples are moved a little, the task is
 * run, and what it remembers and commands is read back. What a task does inside a clamp is what it does there.
 */
import type { Cabinet } from '../engine/cabinet.ts';
import type { Reference } from '../firmware/reference.ts';
import type { Signal } from '../firmware/signal.ts';
import type { UserShare } from '../firmware/user/user-share.ts';
import type { UserSmoothing } from '../firmware/user/user-smoothing.ts';
import { differenceStep } from './jacobian.ts';

/** One number that a task keeps or writes, and the size that counts as one of it. */
export interface Cell {
  readonly label: string;
  readonly size: number;
  get(): number;
  set(value: number): void;
}

/** A task of a cabinet as the analysis needs it: what it reads, keeps and commands. */
export interface LiveTask {
  readonly name: string;
  readonly signal: Signal;
  /** Size of each element of the signal. */
  readonly sampleSizes: Float64Array;
  readonly memory: readonly Cell[];
  readonly commands: readonly (Cell & { readonly target: Float64Array; readonly place: number })[];
  run(): void;
}

/** Slopes of a task over scaled quantities. Columns of `step`: memory, sample, plant states and voltages. */
export interface TaskSlopes {
  readonly task: LiveTask;
  /** How the sample follows the engine's states and voltages: one row per element. */
  readonly sampleX: readonly Float64Array[];
  readonly sampleV: readonly Float64Array[];
  /** New memory and commands (rows) over memory and sample (columns). */
  readonly step: Float64Array;
  /** New memory and commands over present states and voltages, for tasks that read them unsampled. */
  readonly presentX: readonly (Float64Array | null)[];
}

function cellOf(label: string, size: number, target: Float64Array, place: number) {
  return {
    label,
    size,
    target,
    place,
    get: (): number => target[place]!,
    set: (value: number): void => {
      target[place] = value;
    },
  };
}

const volt = 0.1;
const watt = 5e3;
const ratio = 0.1;

/** The sampled tasks of a cabinet, in the order in which they run. */
export function liveTasks({ network, controls }: Cabinet): LiveTask[] {
  const { smoothing, share } = controls;
  const { trays, stages, shelfCount } = network;
  const tasks: LiveTask[] = [];
  if (trays.count > 0) {
    const n = trays.count;
    tasks.push({
      name: smoothing.name,
      signal: smoothing.signal,
      sampleSizes: Float64Array.from({ length: 2 + 2 * n }, (_, k) => (k < 2 ? watt : volt)),
      memory:
        smoothing.law === null
          ? [
              {
                label: 'smoothed load',
                size: watt,
                get: () => smoothing.smoothed_W,
                set: (value) => {
                  smoothing.smoothed_W = value;
                },
              },
              ...(smoothing.values.reference === 'source-high-pass' ? [feedback(smoothing.reference)] : []),
              ...trays.names.map((name, k) =>
                cellOf(`${name} charge integral`, watt, smoothing.integral_W, k),
              ),
            ]
          : userMemory(smoothing.law, watt),
      commands: trays.names.map((name, k) => cellOf(`${name} command`, watt, trays.command_W, k)),
      run: () => {
        smoothing.run(0);
      },
    });
  }
  tasks.push({
    name: share.name,
    signal: share.signal,
    sampleSizes: new Float64Array(shelfCount).fill(ratio),
    memory:
      share.law === null
        ? Array.from({ length: shelfCount }, (_, k) =>
            cellOf(`${stages.names[k]} trim`, volt, share.trim_V, k),
          )
        : userMemory(share.law, volt),
    commands: Array.from({ length: shelfCount }, (_, k) =>
      cellOf(`${stages.names[k]} trim command`, volt, stages.trim_V, k),
    ),
    run: () => {
      share.run(0);
    },
  });
  return tasks;
}

/** What trays carry together, where a feedback loop remembers it. */
function feedback(reference: Reference): Cell {
  return {
    label: 'feedback command',
    size: watt,
    get: () => reference.total_W,
    set: (value) => {
      reference.total_W = value;
    },
  };
}

/** What a controller of the user's own remembers, under its own names; `size` is that of what it writes. */
function userMemory({ memory, memoryNames }: UserShare | UserSmoothing, size: number): Cell[] {
  return memoryNames.map((name, k) => cellOf(name, size, memory, k));
}

/** Differentiates a task about the cabinet's rest. */
export function differentiateTask({ stepper }: Cabinet, task: LiveTask): TaskSlopes {
  const { signal, memory, commands } = task;
  signal.settle();
  const sample = signal.read();
  const size = signal.size;
  const outs = [...memory, ...commands];
  const columns = memory.length + size;
  const step = new Float64Array(outs.length * columns);
  const rest = outs.map((cell) => cell.get());
  const resting = sample.slice();
  const evaluate = (): number[] => {
    task.run();
    const got = outs.map((cell) => cell.get());
    outs.forEach((cell, k) => {
      cell.set(rest[k]!);
    });
    return got;
  };
  const difference = (at: number, unit: number, set: (value: number) => void): number[] => {
    const d = differenceStep * Math.max(Math.abs(at), unit);
    set(at + d);
    const above = evaluate();
    set(at - d);
    const below = evaluate();
    set(at);
    return above.map((value, k) => ((value - below[k]!) / (2 * d)) * (unit / outs[k]!.size));
  };
  memory.forEach((cell, j) => {
    // Memory and commands are restored after each run: the moved value is put in just before it.
    const slope = difference(rest[j]!, cell.size, (value) => cell.set(value));
    for (let i = 0; i < outs.length; i++) step[i * columns + j] = slope[i]!;
  });
  for (let j = 0; j < size; j++) {
    const slope = difference(resting[j]!, task.sampleSizes[j]!, (value) => {
      sample[j] = value;
    });
    for (let i = 0; i < outs.length; i++) step[i * columns + memory.length + j] = slope[i]!;
  }
  const presentX: (Float64Array | null)[] = outs.map(() => null);
  for (let j = 0; j < stepper.x0.length; j++) {
    const slope = difference(stepper.x0[j]!, 1, (value) => {
      stepper.x0[j] = value;
    });
    slope.forEach((value, i) => {
      if (value === 0) return;
      presentX[i] ??= new Float64Array(stepper.x0.length);
      presentX[i]![j] = value;
    });
  }
  return { task, step, presentX, ...sampleSlopes(stepper.x0, stepper.v0, task) };
}

/** How a signal's elements follow states and voltages. */
function sampleSlopes(
  x: Float64Array,
  v: Float64Array,
  { signal, sampleSizes }: LiveTask,
): { sampleX: Float64Array[]; sampleV: Float64Array[] } {
  const take = (): Float64Array => {
    signal.settle();
    return signal.read().slice();
  };
  const over = (value: Float64Array): Float64Array[] => {
    const rows = Array.from({ length: signal.size }, () => new Float64Array(value.length));
    for (let j = 0; j < value.length; j++) {
      const at = value[j]!;
      const d = differenceStep * Math.max(Math.abs(at), 1);
      value[j] = at + d;
      const above = take();
      value[j] = at - d;
      const below = take();
      value[j] = at;
      for (let i = 0; i < rows.length; i++) {
        if (above[i] !== below[i]) rows[i]![j] = (above[i]! - below[i]!) / (2 * d) / sampleSizes[i]!;
      }
    }
    return rows;
  };
  const slopes = { sampleX: over(x), sampleV: over(v) };
  signal.settle();
  return slopes;
}
