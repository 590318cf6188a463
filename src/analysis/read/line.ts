/** Line current of each feeder against its breaker. */
import { formatPercent } from '../../base/quantity.ts';
import type { Span } from '../../events/spans.ts';
import type { Limit } from '../../limits/limit.ts';
import { shelfCurrent } from '../grid/shelf-current.ts';
import { type Case, repeated, spansOf, windowLength_s, worst } from '../record/case.ts';
import { rmsOfMeansGoingOn } from '../record/going-on.ts';
import { once } from '../record/once.ts';
import { isRoundWindow } from '../record/round-window.ts';
import { holds, shareOf } from '../record/spans.ts';
import { stoodUntil_s } from '../record/stood-before.ts';
import { notShown, type Reading, unsettled } from './reading.ts';

interface FeederCurrent {
  readonly feeder: string;
  readonly value: number;
  readonly time_s: number | null;
}

/** Below this a window does not show what a breaker warms up by; assumed, minutes in thermal trips of this size [s]. */
const warms_s = 600;

interface LineFactor extends Span {
  readonly factor: number;
  readonly isLevel: boolean;
}

/** Of three phases two carry what is left. */
const phaseLost_ratio = 2 / 3;

/** When a feeder's line gave less, or more, than its nominal voltage on three phases: I = P/(√3 V PF f). */
function lineFactors(c: Case, feeder: string): LineFactor[] {
  return spansOf(c, ['altered'], feeder).flatMap(({ what, amount, from_s, to_s }): LineFactor[] => {
    if (what === 'phase-loss') return [{ from_s, to_s, factor: phaseLost_ratio, isLevel: false }];
    const isLevel = what === 'ac-sag' || what === 'ac-swell';
    return isLevel && amount != null && amount > 0 ? [{ from_s, to_s, factor: amount, isLevel }] : [];
  });
}

function factorAt(factors: readonly LineFactor[], at_s: number): number {
  let all = 1;
  for (const { from_s, to_s, factor } of factors) if (at_s >= from_s && at_s < to_s) all *= factor;
  return all;
}

/**
 * RMS line current per phase over the breaker's rating: I = P/(√3 V_LL PF), from 10 ms means of the power.
 * Without a stay: over the window, or over the cycle that goes on where that is more. With one: the level that the current stays above for that long.
 * Times without AC and of walk-in are left out. PF is the mean of the feeder's shelves, at their load where their models say so.
 */
export function readLine(c: Case, limit: Limit): Reading {
  const { from_s, width_s } = c.result.means;
  const left_out = leftOut(c);
  const found: FeederCurrent[] = [];
  for (const { id, ratios, stood } of feederRatios(c)) {
    if (limit.stay_s === null) {
      let square = 0;
      let count = 0;
      for (let j = 0; j < ratios.length; j++) {
        if (holds(left_out, from_s + j * width_s)) continue;
        square += ratios[j]! * ratios[j]!;
        count++;
      }
      const value = Math.max(Math.sqrt(square / count), rmsOfMeansGoingOn(c, ratios) ?? 0, stood);
      if (count > 0) found.push({ feeder: id, value, time_s: null });
    } else {
      // A run shorter than the stay is judged as if it went on: never kinder than the full length.
      const length = Math.min(Math.max(1, Math.round(limit.stay_s / width_s)), ratios.length);
      const { value, start } = highestFloor(withWhatIsCut(c, ratios, length), length);
      found.push({ feeder: id, value: Math.max(value, stood), time_s: from_s + start * width_s });
    }
  }
  const most = worst(found, (f) => f.value);
  if (most === null) return notShown('no feeder carried power in the window');
  const share_seen = 1 - shareOf(c.result.window, left_out);
  const reading = {
    value: most.value,
    node: most.feeder,
    time_s: most.time_s,
    share_seen,
    reason: distortionWords(c, most.feeder, left_out),
  };
  const asked_s = limit.stay_s ?? warms_s;
  if (repeated(c) !== null || windowLength_s(c) >= asked_s) return reading;
  return unsettled(
    reading,
    `requires ${asked_s} s; the window is ${Number(windowLength_s(c).toPrecision(4))} s`,
    'worse',
  );
}

/** Line current over the breaker's rating. */
interface FeederRatios {
  readonly id: string;
  /** In each 10 ms; 0 where AC is lost or walks in. */
  readonly ratios: Float64Array;
  /** Where it stood for ever before the run; 0 where that is not known. */
  readonly stood: number;
}

/** Of every feeder that carries shelves. */
const feederRatios = once((c: Case): readonly FeederRatios[] => {
  const { columns, at_start, from_s, width_s } = c.result.means;
  const left_out = leftOut(c);
  return c.scenario.feeders.flatMap((feeder) => {
    const power = columns.get(`${feeder.id}.ac_power_W`);
    const shelves = c.scenario.shelves.filter((shelf) => shelf.feeder === feeder.id);
    if (power === undefined || power.length === 0 || shelves.length === 0) return [];
    const current = shelfCurrent(c.scenario, feeder.id);
    const { line_voltage_V, breaker_current_A } = feeder.values;
    const perWattAt = (p: number): number =>
      1 / (Math.sqrt(3) * line_voltage_V * current.powerFactor(p) * breaker_current_A);
    const full = perWattAt(Number.POSITIVE_INFINITY);
    const line_V = columns.get(`${feeder.id}.line_voltage_V`);
    // The simulated voltage of a feeder that gives way holds its sags and swells.
    const factors = lineFactors(c, feeder.id).filter(({ isLevel }) => !isLevel || line_V === undefined);
    const ratios = new Float64Array(power.length);
    for (let j = 0; j < power.length; j++) {
      const at_s = from_s + j * width_s;
      if (holds(left_out, at_s)) continue;
      const perWatt = current.isCurved ? perWattAt(power[j]!) : full;
      const voltage = line_V === undefined ? 1 : line_V[j]! / line_voltage_V;
      ratios[j] = (power[j]! * perWatt) / factorAt(factors, at_s) / voltage;
    }
    const before_W = stoodUntil_s(c) === null ? 0 : (at_start[`${feeder.id}.ac_power_W`] ?? 0);
    const before_V = at_start[`${feeder.id}.line_voltage_V`] ?? line_voltage_V;
    const perWatt = current.isCurved ? perWattAt(before_W) : full;
    const stood = before_W === 0 ? 0 : (before_W * perWatt * line_voltage_V) / before_V;
    return [{ id: feeder.id, ratios, stood }];
  });
});

/** Where the window is one round of the load, stretches that its end cuts go on at its beginning. */
function withWhatIsCut(c: Case, ratios: Float64Array, length: number): Float64Array {
  if (!isRoundWindow(c)) return ratios;
  const longer = new Float64Array(ratios.length + length - 1);
  longer.set(ratios);
  longer.set(ratios.subarray(0, length - 1), ratios.length);
  return longer;
}

/** When AC is lost or walks in. */
function leftOut({ applies: { lost, walkIn } }: Case): readonly Span[] {
  return [...lost, ...walkIn];
}

/** What the models of the shelves say of the current's distortion at the mean power; null where they say nothing. */
function distortionWords(c: Case, feeder: string, left_out: readonly Span[]): string | null {
  const { columns, from_s, width_s } = c.result.means;
  const power_W = columns.get(`${feeder}.ac_power_W`)!;
  let [sum, count] = [0, 0];
  for (let j = 0; j < power_W.length; j++) {
    if (holds(left_out, from_s + j * width_s)) continue;
    sum += power_W[j]!;
    count++;
  }
  const current = shelfCurrent(c.scenario, feeder);
  const mean_W = sum / count;
  const distortion = current.distortion(mean_W);
  if (!(distortion > 0)) return null;
  return `at the mean load of ${formatPercent(current.load(mean_W), 3)} its THD is ${formatPercent(distortion, 3)}, power factor ${current.powerFactor(mean_W).toFixed(3)}, by the shelves' models`;
}

/** The largest of the smallest values of every stretch of `length`: the level stayed above for so long. */
export function highestFloor(values: Float64Array, length: number): { value: number; start: number } {
  // Of places in a stretch that may still be the least; one more than it has, round and round.
  const size = Math.min(length, values.length) + 1;
  const queue = new Int32Array(size);
  let head = 0;
  let tail = 0;
  let best = { value: Number.NEGATIVE_INFINITY, start: 0 };
  for (let j = 0; j < values.length; j++) {
    while (tail > head && values[queue[(tail - 1) % size]!]! >= values[j]!) tail--;
    queue[tail++ % size] = j;
    if (queue[head % size]! <= j - length) head++;
    const floor = values[queue[head % size]!]!;
    if (j >= length - 1 && floor > best.value) best = { value: floor, start: j - length + 1 };
  }
  return best;
}
