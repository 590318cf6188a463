/**
 * The share loop's own step: one shelf's set point moves against the others' and stays. From what the trims
 * answer to a push of one period: how long the share error takes to stay within 2 % of its first value, how far
 * it goes beyond, what remains, and how near the loop gain comes to −1.
 *
 * With h_k the trims' answer k periods after a push of one period, the error under a step is 1 + Σ h, and the
 * sensitivity is 1 + H(z); the loop gain's least distance from −1 is one over its largest magnitude.
 */
import type { Operation, PeriodMap } from '../../linear/period-map.ts';
import type { LinearTask } from '../../linear/sampled.ts';

export interface ShareStep {
  readonly settling_s: number | null;
  readonly overshoot_ratio: number | null;
  readonly clearance_ratio: number | null;
  /** What the share loop leaves of a set-point difference, for its leakage. */
  readonly leaves_ratio: number | null;
}

/** Stay within this share of the first error. */
const band = 0.02;

/** Longest look [s], and changes over this many periods that count as done. */
const longest_s = 4;
const quiet = 1e-5;

const none: ShareStep = {
  settling_s: null,
  overshoot_ratio: null,
  clearance_ratio: null,
  leaves_ratio: null,
};

export function shareStep(map: PeriodMap): ShareStep {
  const task = map.system.tasks.find(({ name }) => name === 'share');
  return task === undefined ? none : map.operating((operate) => stepOf(task, map, operate));
}

function stepOf(
  task: LinearTask,
  { system, operations }: PeriodMap,
  operate: (operation: Operation, z: Float64Array) => void,
): ShareStep {
  const n = system.plant.n;
  const commands = [...task.run.rows].filter((row) => row >= n && row < n + system.commandCount);
  if (commands.length < 2) return none;
  const pattern = commands.map((_, k) => (k === 0 ? 1 : 0) - 1 / commands.length);
  const square = pattern.reduce((sum, p) => sum + p * p, 0);
  const read = (z: Float64Array): number =>
    commands.reduce((sum, row, k) => sum + pattern[k]! * z[row]!, 0) / square;
  const z = new Float64Array(system.size);
  commands.forEach((row, k) => {
    z[row] = pattern[k]!;
  });
  const period_s = task.period * system.tick_s;
  const most = Math.ceil(longest_s / period_s);
  const first = operations.findIndex((operation) => operation.kind === 'run' && operation.task === task);
  const answers: number[] = [];
  const errors: number[] = [1];
  let calm = 0;
  for (let at = first + 1; answers.length < most; at = at === operations.length - 1 ? 0 : at + 1) {
    const operation = operations[at]!;
    operate(operation, z);
    if (operation.kind !== 'run' || operation.task !== task) continue;
    const h = read(z);
    answers.push(h);
    errors.push(errors.at(-1)! + h);
    calm = Math.abs(h) < quiet ? calm + 1 : 0;
    if (calm > 10) break;
    // What grows beyond all sense is unstable, whatever else was found.
    if (Math.abs(h) > 1e3) return none;
    const ratio = steadyRatio(answers);
    if (ratio === null) continue;
    // One mode is left: it goes on as it does.
    for (let next = h * ratio; Math.abs(next) > quiet && answers.length < most; next *= ratio) {
      answers.push(next);
      errors.push(errors.at(-1)! + next);
    }
    break;
  }
  const rest = errors.at(-1)!;
  let last = 0;
  errors.forEach((error, k) => {
    if (Math.abs(error - rest) > band) last = k + 1;
  });
  // The plant follows within a period; the error of step k is read when the commands have stood for one.
  const overshoot = Math.max(0, -Math.min(...errors.map((error) => error - rest)));
  return {
    settling_s: last > most - 2 ? null : last * period_s,
    overshoot_ratio: overshoot,
    clearance_ratio: 1 / largestSensitivity(answers),
    leaves_ratio: rest,
  };
}

/** Ratio of successive answers where it has stood still for eight periods; null where more than one mode is left. */
function steadyRatio(answers: readonly number[]): number | null {
  if (answers.length < 40) return null;
  const last = answers.slice(-9);
  const ratios = last.slice(1).map((h, k) => h / last[k]!);
  const ratio = ratios.at(-1)!;
  const stands = ratio > 0 && ratio < 0.9999 && ratios.every((r) => Math.abs(r - ratio) < 1e-4 * ratio);
  return stands ? ratio : null;
}

/** Largest |1 + Σ h_k z⁻ᵏ| on the unit circle. */
function largestSensitivity(answers: readonly number[]): number {
  let largest = 0;
  const points = 96;
  for (let p = 1; p <= points; p++) {
    const angle = (Math.PI * p * p) / (points * points);
    const [cos, sin] = [Math.cos(angle), -Math.sin(angle)];
    let [re, im, c, s] = [1, 0, 1, 0];
    for (const h of answers) {
      [c, s] = [c * cos - s * sin, c * sin + s * cos];
      re += h * c;
      im += h * s;
    }
    largest = Math.max(largest, Math.hypot(re, im));
  }
  return largest;
}
