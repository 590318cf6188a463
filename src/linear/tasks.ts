/**
 * Firmware tasks, differentiated by running their own code: memory and samples are moved a little, the task is
 * run, and what it remembers and commands is read back. What a task does inside a clamp is what it does there.
 */
import type { Cabinet } from '../engine/cabinet.ts';
import type { Exposed } from '../firmware/exposed.ts';
import type { Signal } from '../firmware/signal/signal.ts';
import { stepAt } from './difference.ts';
import { moversOf } from './movers.ts';
import type { PlantInput } from './plant-input.ts';

/** A task of a cabinet as the analysis needs it: what it reads, keeps and commands. */
export interface LiveTask extends Exposed {
  readonly name: string;
  readonly signal: Signal;
  /** Where a scenario states its period. */
  readonly periodPath: string;
  readonly isInner: boolean;
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
  /** The same over the plant's inputs that stand somewhere as a value: set points, commands of other tasks. */
  readonly presentU: readonly Float64Array[];
}

/** The sampled tasks that a cabinet at rest has, in the order in which they run. */
export function liveTasks({ controls }: Cabinet): LiveTask[] {
  return controls.tasks.flatMap((task) => {
    const exposed = task.expose();
    if (exposed === null) return [];
    const run = (): void => {
      task.run(0);
    };
    const { name, signal, periodPath, isInner = false } = task;
    return [{ name, signal, periodPath, isInner, ...exposed, run }];
  });
}

/** Differentiates a task about the cabinet's rest; `inputs`: what else than the plant's states it may look at when it runs. */
export function differentiateTask(
  { stepper }: Cabinet,
  task: LiveTask,
  inputs: readonly PlantInput[],
): TaskSlopes {
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
    const d = stepAt(at, unit);
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
  for (const j of moversOf(stepper.x0, evaluate)) {
    const slope = difference(stepper.x0[j]!, 1, (value) => {
      stepper.x0[j] = value;
    });
    slope.forEach((value, i) => {
      if (value === 0) return;
      presentX[i] ??= new Float64Array(stepper.x0.length);
      presentX[i]![j] = value;
    });
  }
  const presentU = outs.map(() => new Float64Array(inputs.length));
  for (const j of watchedInputs(inputs, evaluate)) {
    const { target, place } = inputs[j] as ValueInput;
    const slope = difference(target[place]!, 1, (value) => {
      target[place] = value;
    });
    slope.forEach((value, i) => {
      presentU[i]![j] = value;
    });
  }
  return { task, step, presentX, presentU, ...sampleSlopes(stepper.x0, stepper.v0, task) };
}

type ValueInput = Extract<PlantInput, { readonly kind: 'value' }>;

/** Of the inputs that stand somewhere as a value, those that a run looks at: most look at none. */
function watchedInputs(inputs: readonly PlantInput[], evaluate: () => readonly number[]): number[] {
  const places = inputs.flatMap((input) => (input.kind === 'value' ? [input] : []));
  const rest = Float64Array.from(places, ({ target, place }) => target[place]!);
  const write = (values: Float64Array): void => {
    places.forEach(({ target, place }, k) => {
      target[place] = values[k]!;
    });
  };
  const moved = rest.slice();
  const found = moversOf(moved, () => {
    write(moved);
    const got = evaluate();
    write(rest);
    return got;
  });
  return found.map((k) => inputs.indexOf(places[k]!));
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
    for (const j of moversOf(value, take)) {
      const at = value[j]!;
      const d = stepAt(at, 1);
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
