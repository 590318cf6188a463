/**
 * The whole cabinet about rest: continuous plant, held commands, firmware memory, and samples on their way.
 * State z = [plant | commands | for each task: memory, samples from the newest to the oldest].
 */
import type { Cabinet } from '../engine/cabinet.ts';
import { type LinearPlant, linearPlant, type PlantReading } from './plant.ts';
import type { PlantInput } from './plant-input.ts';
import { differentiateTask, type LiveTask, liveTasks } from './tasks.ts';

/** A linear change of some elements of z: z[rows] ← matrix · z[columns]. */
export interface Jump {
  readonly rows: Int32Array;
  readonly columns: Int32Array;
  readonly matrix: Float64Array;
}

export interface LinearTask {
  readonly name: string;
  /** Ticks. */
  readonly period: number;
  readonly phase: number;
  readonly slots: number;
  readonly size: number;
  /** First place in z of the memory and of the samples. */
  readonly memoryAt: number;
  readonly memoryCount: number;
  readonly samplesAt: number;
  /** z[newest sample] ← …, after the older ones have moved on by one. */
  readonly sample: Jump;
  readonly run: Jump;
  /** Where a scenario states its period. */
  readonly periodPath: string;
  /** Its loop stands where a stage would have one of its own: it is never held. */
  readonly isInner: boolean;
  /** What the sample sees of each of the plant's inputs at once: rows as in `sample`. */
  readonly direct: readonly { readonly value: Float64Array; readonly slope: Float64Array }[];
  /** What a run sees of each of them, commands of tasks apart (those stand in `run`): rows as in `run`. */
  readonly runDirect: readonly Float64Array[];
}

export interface Sampled {
  readonly plant: LinearPlant;
  readonly size: number;
  readonly commandCount: number;
  /** Columns of B for the commands: n rows each. */
  readonly commandColumns: readonly Float64Array[];
  readonly tasks: readonly LinearTask[];
  /** One label for each element of z; samples are grouped under their signal. */
  readonly labels: readonly string[];
  /** Length of a tick, and of the rung whose trapezoid is meant. */
  readonly tick_s: number;
  readonly rungTicks: number;
}

/** Tasks but those whose loops stand where the stages would have theirs; where there are no others, these. */
export function outerTasks({ tasks }: Pick<Sampled, 'tasks'>): readonly LinearTask[] {
  const outer = tasks.filter(({ isInner }) => !isInner);
  return outer.length > 0 ? outer : tasks;
}

export function innerTasks({ tasks }: Pick<Sampled, 'tasks'>): readonly LinearTask[] {
  return tasks.filter(({ isInner }) => isInner);
}

/** Rung whose trapezoid is meant: the finest that the engine stays on, but for what follows an instant jump [s]. */
const rung_s = 1e-6;

/** Differentiates plant and firmware of a cabinet at rest. `inputs`: what else moves the plant. */
export function linearise(cabinet: Cabinet, inputs: readonly PlantInput[] = []): Sampled {
  const tasks = liveTasks(cabinet);
  const commandInputs = tasks.flatMap((task) => task.commands.map(asInput));
  const plant = linearPlant(cabinet, [...commandInputs, ...inputs]);
  const sizes = tasks.flatMap((task) => task.commands.map((command) => command.size));
  const n = plant.n;
  const commandCount = commandInputs.length;
  const labels = [...plant.labels, ...commandInputs.map((input) => input.name)];
  let at = n + commandCount;
  let command = n;
  const out: LinearTask[] = [];
  for (const task of tasks) {
    const { signal, memory, commands } = task;
    const slots = Math.floor(signal.latency / signal.period) + 1;
    const memoryAt = at;
    const samplesAt = at + memory.length;
    at = samplesAt + slots * signal.size;
    labels.push(...memory.map((cell) => cell.label));
    for (let k = 0; k < slots * signal.size; k++) labels.push(`${signal.name} in flight`);
    const nothing = new Float64Array(rowCount(task));
    const slopes = differentiateTask(cabinet, task, plant.inputs);
    const range = (from: number, count: number): number[] =>
      Array.from({ length: count }, (_, k) => from + k);
    const sampleReadings = slopes.sampleX.map((row, i) => plant.read(row, slopes.sampleV[i]!));
    const sampleMatrix = sampleReadings.map((reading) => rowOver(plant, reading, commandCount, sizes));
    const rows = [...range(memoryAt, memory.length), ...range(command, commands.length)];
    const width = memory.length + signal.size;
    const runRows = rows.map((_, i) => {
      const row = new Float64Array(n + commandCount + width);
      const present = slopes.presentX[i] ?? null;
      if (present !== null) {
        const zeroV = new Float64Array(cabinet.stepper.v0.length);
        const direct = rowOver(plant, plant.read(present, zeroV), commandCount, sizes);
        row.set(direct);
      }
      for (let k = 0; k < commandCount; k++) row[n + k]! += slopes.presentU[i]![k]! * sizes[k]!;
      row.set(slopes.step.subarray(i * width, (i + 1) * width), n + commandCount);
      return row;
    });
    const runColumns = [
      ...range(0, n + commandCount),
      ...range(memoryAt, memory.length),
      ...range(samplesAt + (slots - 1) * signal.size, signal.size),
    ];
    out.push({
      name: task.name,
      periodPath: task.periodPath,
      isInner: task.isInner,
      period: signal.period,
      phase: signal.phase,
      slots,
      size: signal.size,
      memoryAt,
      memoryCount: memory.length,
      samplesAt,
      sample: compact(range(samplesAt, signal.size), range(0, n + commandCount), sampleMatrix),
      run: compact(rows, runColumns, runRows),
      direct: plant.inputs.map((_, j) => ({
        value: Float64Array.from(sampleReadings, ({ d }) => d[j]!),
        slope: Float64Array.from(sampleReadings, ({ e }) => e[j]!),
      })),
      runDirect: plant.inputs.map((_, j) =>
        j < commandCount ? nothing : Float64Array.from(slopes.presentU, (row) => row[j]!),
      ),
    });
    command += commands.length;
  }
  return {
    plant,
    size: at,
    commandCount,
    commandColumns: plant.B.slice(0, commandCount).map(({ value }, k) => value.map((b) => b * sizes[k]!)),
    tasks: out,
    labels,
    tick_s: cabinet.network.scenario.tick_s,
    rungTicks: Math.max(1, Math.round(rung_s / cabinet.network.scenario.tick_s)),
  };
}

/** Numbers that a run of a task writes. */
const rowCount = ({ memory, commands }: LiveTask): number => memory.length + commands.length;

function asInput(command: LiveTask['commands'][number]): PlantInput {
  return { kind: 'value', name: command.label, target: command.target, place: command.place };
}

/** A reading as a row over plant states and scaled commands. */
function rowOver(
  plant: LinearPlant,
  reading: PlantReading,
  commandCount: number,
  sizes: readonly number[],
): Float64Array {
  const row = new Float64Array(plant.n + commandCount);
  row.set(reading.c);
  for (let k = 0; k < commandCount; k++) row[plant.n + k] = reading.d[k]! * sizes[k]!;
  return row;
}

/** A jump without the columns that nothing follows. */
function compact(rows: readonly number[], columns: readonly number[], matrix: readonly Float64Array[]): Jump {
  const used = columns.map((_, j) => j).filter((j) => matrix.some((row) => row[j] !== 0));
  const flat = new Float64Array(rows.length * used.length);
  matrix.forEach((row, i) => {
    used.forEach((j, k) => {
      flat[i * used.length + k] = row[j]!;
    });
  });
  return { rows: Int32Array.from(rows), columns: Int32Array.from(used, (j) => columns[j]!), matrix: flat };
}
