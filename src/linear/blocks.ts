/**
 * Which states feed back on which: the parts of z within which everything follows everything. Each part has its
 * modes to itself, however it drives or is driven by others.
 * Reference: R. Tarjan, SIAM Journal on Computing 1(2), 1972 (strongly connected components).
 */
import type { Jump, Sampled } from './sampled.ts';

/** Slope over scaled states that counts as none: rounding of the differences. */
const nothing = 1e-9;

export interface Block {
  /** Places in z, ascending. */
  readonly places: readonly number[];
  /** Firmware takes part: its modes are those of the period map. */
  readonly isSampled: boolean;
}

/** Parts of the whole; single places that do not even follow themselves are left out. */
export function blocksOf(system: Sampled): Block[] {
  const { plant, size } = system;
  const n = plant.n;
  const least = leastOf(plant.A);
  const follows = Array.from({ length: size }, (_, k): number[] =>
    k < n ? followed(plant.A, n, k, least) : [],
  );
  system.commandColumns.forEach((column, k) => {
    for (let i = 0; i < n; i++) if (column[i] !== 0) follows[i]!.push(n + k);
  });
  for (const task of system.tasks) {
    note(follows, task.sample);
    note(follows, task.run);
    for (let k = task.size; k < task.slots * task.size; k++) {
      follows[task.samplesAt + k]!.push(task.samplesAt + k - task.size);
    }
  }
  return components(follows)
    .filter((places) => places.length > 1 || follows[places[0]!]!.includes(places[0]!))
    .map((places) => ({ places, isSampled: places.some((place) => place >= n) }));
}

/** Notes what follows what in a jump. */
function note(follows: readonly number[][], { rows, columns, matrix }: Jump): void {
  for (let i = 0, at = 0; i < rows.length; i++)
    for (let j = 0; j < columns.length; j++, at++)
      if (Math.abs(matrix[at]!) > nothing) follows[rows[i]!]!.push(columns[j]!);
}

/** Parts of a plant (n × n) on its own, single places among them: its eigenvalues are theirs. */
export function plantBlocks(A: Float64Array, n: number): number[][] {
  const least = leastOf(A);
  return components(Array.from({ length: n }, (_, k) => followed(A, n, k, least)));
}

/** What counts as none in a plant: next to nothing of its largest slope. */
function leastOf(A: Float64Array): number {
  let largest = 0;
  for (let k = 0; k < A.length; k++) if (Math.abs(A[k]!) > largest) largest = Math.abs(A[k]!);
  return nothing * nothing * largest;
}

/** Places that place i of a plant follows by more than `least`. */
function followed(A: Float64Array, n: number, i: number, least: number): number[] {
  const out: number[] = [];
  // Hardly any is not nought, which is told without looking at its size.
  for (let j = 0, at = i * n; j < n; j++, at++) if (A[at] !== 0 && Math.abs(A[at]!) > least) out.push(j);
  return out;
}

function components(follows: readonly (readonly number[])[]): number[][] {
  const size = follows.length;
  const index = new Int32Array(size).fill(-1);
  const low = new Int32Array(size);
  const onStack = new Uint8Array(size);
  const stack: number[] = [];
  const out: number[][] = [];
  let count = 0;
  const asked = new Int32Array(size);
  const enter = (v: number): number => {
    index[v] = count;
    low[v] = count++;
    stack.push(v);
    onStack[v] = 1;
    return v;
  };
  const leave = (v: number): void => {
    if (low[v] !== index[v]) return;
    const part: number[] = [];
    for (let w = -1; w !== v; ) {
      w = stack.pop()!;
      onStack[w] = 0;
      part.push(w);
    }
    out.push(part.sort((a, b) => a - b));
  };
  // A path of its own instead of calls: samples on their way make chains of thousands.
  const path: number[] = [];
  for (let first = 0; first < size; first++) {
    if (index[first] === -1) path.push(enter(first));
    while (path.length > 0) {
      const v = path.at(-1)!;
      const next = follows[v]![asked[v]!++];
      if (next === undefined) {
        path.pop();
        leave(v);
        const before = path.at(-1);
        if (before !== undefined) low[before] = Math.min(low[before]!, low[v]!);
      } else if (index[next] === -1) path.push(enter(next));
      else if (onStack[next]) low[v] = Math.min(low[v]!, index[next]!);
    }
  }
  return out;
}

/** The system of one part alone: what is outside stands still. */
export function restrict(system: Sampled, block: Block): Sampled {
  const { plant } = system;
  const n = plant.n;
  const place = new Map(block.places.map((p, k) => [p, k]));
  const own = block.places.filter((p) => p < n);
  const commands = block.places.filter((p) => p >= n && p < n + system.commandCount);
  const A = new Float64Array(own.length * own.length);
  for (let a = 0, at = 0; a < own.length; a++)
    for (let b = 0; b < own.length; b++) A[at++] = plant.A[own[a]! * n + own[b]!]!;
  // Samples and memory keep their layout per task; what is not in the part stays at zero.
  let at = own.length + commands.length;
  const labels = [...own, ...commands].map((p) => system.labels[p]!);
  const moved = new Map<number, number>([...own, ...commands].map((p, k) => [p, k]));
  const tasks = system.tasks
    .filter((task) => {
      const end = task.samplesAt + task.slots * task.size;
      return block.places.some((p) => p >= task.memoryAt && p < end);
    })
    .map((task) => {
      const memory = within(place, task.memoryAt, task.memoryCount);
      const newest = within(place, task.samplesAt, task.size);
      const memoryAt = at;
      for (const p of memory) {
        moved.set(p, at++);
        labels.push(system.labels[p]!);
      }
      const samplesAt = at;
      for (let slot = 0; slot < task.slots; slot++) {
        for (const p of newest) {
          moved.set(p + slot * task.size, at++);
          labels.push(system.labels[p]!);
        }
      }
      return { ...task, memoryAt, memoryCount: memory.length, samplesAt, size: newest.length };
    });
  const narrowed = tasks.map((task) => ({
    ...task,
    sample: narrow(task.sample, moved),
    run: narrow(task.run, moved),
  }));
  const inPlant = (column: Float64Array): Float64Array => Float64Array.from(own, (i) => column[i]!);
  return {
    ...system,
    plant: { ...plant, n: own.length, labels: own.map((i) => plant.labels[i]!), A, B: [], inputs: [] },
    size: at,
    commandCount: commands.length,
    commandColumns: commands.map((c) => inPlant(system.commandColumns[c - n]!)),
    tasks: narrowed,
    labels,
  };
}

function within(place: ReadonlyMap<number, number>, from: number, count: number): number[] {
  return Array.from({ length: count }, (_, k) => from + k).filter((p) => place.has(p));
}

function narrow({ rows, columns, matrix }: Jump, moved: ReadonlyMap<number, number>): Jump {
  const keepRows = [...rows.keys()].filter((i) => moved.has(rows[i]!));
  const keepColumns = [...columns.keys()].filter((j) => moved.has(columns[j]!));
  const out = new Float64Array(keepRows.length * keepColumns.length);
  let at = 0;
  for (const i of keepRows) for (const j of keepColumns) out[at++] = matrix[i * columns.length + j]!;
  return {
    rows: Int32Array.from(keepRows, (i) => moved.get(rows[i]!)!),
    columns: Int32Array.from(keepColumns, (j) => moved.get(columns[j]!)!),
    matrix: out,
  };
}
