/**
 * A piecewise-linear curve over whole ticks and the cursor that reads it. A shape is stored once (a periodic
 * one stores one period only, so its memory does not grow with the run); several readers may share it, each
 * with its own delay.
 */

/** Corners of a curve. Periodic: ticks lie in [0, period), and the last corner joins the first one period on. */
export interface PiecewiseShape {
  readonly ticks: Float64Array;
  readonly values: Float64Array;
  readonly period_ticks: number | null;
  /** Integral from the first corner to every 64th corner [W·ticks]. */
  readonly integral: Float64Array;
  /** Integral over one period [W·ticks]; 0 where the curve does not repeat. */
  readonly turn: number;
}

/**
 * Shape through the corners given; one that does not repeat is flat before the first and after the last. Corners
 * where the slope does not change are left out, so that every stored corner is a kink (a flat curve keeps one).
 * Wrong corners are a bug: RangeError.
 */
export function makeShape(
  ticks: ArrayLike<number>,
  values: ArrayLike<number>,
  period_ticks: number | null,
): PiecewiseShape {
  const n = ticks.length;
  if (n === 0 || values.length !== n) throw new RangeError(`${n} ticks but ${values.length} values`);
  for (let i = 0; i < n; i++) {
    const t = ticks[i]!;
    if (!Number.isSafeInteger(t) || !Number.isFinite(values[i]!)) {
      throw new RangeError(`corner ${i} is (${t}, ${values[i]}): need a whole tick and a finite value`);
    }
    if (i > 0 && t <= ticks[i - 1]!) throw new RangeError(`tick ${t} does not follow ${ticks[i - 1]}`);
  }
  if (period_ticks !== null) {
    if (!Number.isSafeInteger(period_ticks) || ticks[0]! < 0 || ticks[n - 1]! >= period_ticks) {
      throw new RangeError(`corners ${ticks[0]} to ${ticks[n - 1]} do not lie within period ${period_ticks}`);
    }
  }
  let count = 0;
  for (let i = 0; i < n; i++) if (isCorner(ticks, values, period_ticks, i)) count++;
  const t = new Float64Array(Math.max(1, count));
  const v = new Float64Array(t.length);
  t[0] = ticks[0]!;
  v[0] = values[0]!;
  let kept = 0;
  for (let i = 0; i < n; i++) {
    if (!isCorner(ticks, values, period_ticks, i)) continue;
    t[kept] = ticks[i]!;
    v[kept] = values[i]!;
    kept++;
  }
  return { ticks: t, values: v, period_ticks, ...integrate(t, v, period_ticks) };
}

/** Corners from one stored integral to the next: a long curve needs few of them. */
const stride = 64;

function isCorner(
  ticks: ArrayLike<number>,
  values: ArrayLike<number>,
  period: number | null,
  i: number,
): boolean {
  const n = ticks.length;
  const slope = (from: number, to: number, turn: number) =>
    (values[to]! - values[from]!) / (ticks[to]! + turn - ticks[from]!);
  const ends = (turn: number) => (period === null ? 0 : slope(n - 1, 0, turn));
  const slopeIn = i === 0 ? ends(period ?? 0) : slope(i - 1, i, 0);
  const slopeOut = i === n - 1 ? ends(period ?? 0) : slope(i, i + 1, 0);
  return slopeIn !== slopeOut;
}

function integrate(t: Float64Array, v: Float64Array, period: number | null) {
  const n = t.length;
  const integral = new Float64Array(Math.ceil(n / stride));
  let sum = 0;
  for (let i = 1; i < n; i++) {
    sum += 0.5 * (v[i]! + v[i - 1]!) * (t[i]! - t[i - 1]!);
    if (i % stride === 0) integral[i / stride] = sum;
  }
  const turn = period === null ? 0 : sum + 0.5 * (v[0]! + v[n - 1]!) * (t[0]! + period - t[n - 1]!);
  return { integral, turn };
}

/** Integral from the first corner to corner i [W·ticks]. */
function integralTo({ ticks, values, integral }: PiecewiseShape, i: number): number {
  const from = Math.floor(i / stride);
  let sum = integral[from]!;
  for (let k = from * stride + 1; k <= i; k++) {
    sum += 0.5 * (values[k]! + values[k - 1]!) * (ticks[k]! - ticks[k - 1]!);
  }
  return sum;
}

/** Corners that the cursor walks before it searches by halving: neighbours are the usual case. */
const walk = 4;

/**
 * Reader of a shape, delayed by `delay_ticks`. Outside its corners a curve that does not repeat holds its first
 * and last value. Any order of ticks is allowed and gives the same bits; neighbouring ticks cost a comparison.
 */
export class Piecewise {
  readonly shape: PiecewiseShape;
  readonly delay_ticks: number;
  readonly tick_s: number;
  /** Corner at or below the tick last asked; -1 before the first. */
  private index = 0;
  /** Where the turn of a periodic shape began that was last asked; NaN before the first. */
  private turn = Number.NaN;

  constructor(shape: PiecewiseShape, delay_ticks: number, tick_s: number) {
    this.shape = shape;
    this.delay_ticks = delay_ticks;
    this.tick_s = tick_s;
  }

  /** Power at `tick` [W]. */
  at(tick: number): number {
    const { ticks, values } = this.shape;
    const local = this.localOf(tick);
    const i = this.seek(local);
    const n = ticks.length;
    const period = this.shape.period_ticks;
    if (period === null) {
      if (i < 0) return values[0]!;
      if (i === n - 1) return values[n - 1]!;
    }
    const from = i < 0 ? n - 1 : i;
    const to = from === n - 1 ? 0 : from + 1;
    const t0 = i < 0 ? ticks[from]! - period! : ticks[from]!;
    const t1 = i === n - 1 ? ticks[to]! + period! : ticks[to]!;
    const v0 = values[from]!;
    return v0 + (values[to]! - v0) * ((local - t0) / (t1 - t0));
  }

  /** Smallest tick above `tick` with a change of slope; Infinity when none follows. */
  nextKink(tick: number): number {
    const { ticks, period_ticks } = this.shape;
    const n = ticks.length;
    if (n === 1) return Number.POSITIVE_INFINITY;
    const local = this.localOf(tick);
    const i = this.seek(local) + 1;
    if (i < n) return tick + (ticks[i]! - local);
    return period_ticks === null ? Number.POSITIVE_INFINITY : tick + (ticks[0]! + period_ticks - local);
  }

  /** Change of slope at `tick` [W/s], 0 where there is none. */
  kinkAt(tick: number): number {
    const { ticks } = this.shape;
    const i = this.seek(this.localOf(tick));
    if (i < 0 || ticks.length === 1 || ticks[i] !== this.localOf(tick)) return 0;
    return Math.abs(this.slopeFrom(i) - this.slopeFrom(i - 1)) / this.tick_s;
  }

  /** Integral of the power from tick `from` to tick `to` [J], exact but for rounding. */
  energy_J(from: number, to: number): number {
    return (this.primitive(to) - this.primitive(from)) * this.tick_s;
  }

  /** Slope of the piece that starts at corner i [W per tick]. */
  private slopeFrom(i: number): number {
    const { ticks, values, period_ticks } = this.shape;
    const n = ticks.length;
    if (period_ticks === null) {
      return i < 0 || i >= n - 1 ? 0 : (values[i + 1]! - values[i]!) / (ticks[i + 1]! - ticks[i]!);
    }
    const from = (i + n) % n;
    if (from < n - 1) return (values[from + 1]! - values[from]!) / (ticks[from + 1]! - ticks[from]!);
    return (values[0]! - values[from]!) / (ticks[0]! + period_ticks - ticks[from]!);
  }

  /** Integral from the first corner to `tick` [W·ticks]. */
  private primitive(tick: number): number {
    const { ticks, values, period_ticks, turn } = this.shape;
    const local = this.localOf(tick);
    const i = this.seek(local);
    const v = this.at(tick);
    if (period_ticks === null) {
      if (i < 0) return values[0]! * (local - ticks[0]!);
      return integralTo(this.shape, i) + 0.5 * (values[i]! + v) * (local - ticks[i]!);
    }
    const turns = (tick - this.delay_ticks - local) / period_ticks;
    const whole = turns * turn;
    if (i >= 0) return whole + integralTo(this.shape, i) + 0.5 * (values[i]! + v) * (local - ticks[i]!);
    return whole - 0.5 * (values[0]! + v) * (ticks[0]! - local);
  }

  /** Tick on the shape's own axis: the delay taken off, whole periods taken off. Exact on whole numbers. */
  private localOf(tick: number): number {
    const period = this.shape.period_ticks;
    if (period === null) return tick - this.delay_ticks;
    const since = tick - this.turn;
    if (since >= 0 && since < period) return since;
    const rest = (tick - this.delay_ticks) % period;
    const local = rest < 0 ? rest + period : rest;
    this.turn = tick - local;
    return local;
  }

  /** Last corner at or below `local`; -1 when it lies before the first. */
  private seek(local: number): number {
    const { ticks } = this.shape;
    const n = ticks.length;
    let i = this.index;
    for (let moves = 0; moves <= walk; moves++) {
      if (i >= 0 && local < ticks[i]!) i--;
      else if (i + 1 < n && local >= ticks[i + 1]!) i++;
      else {
        this.index = i;
        return i;
      }
    }
    let low = -1;
    let high = n;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (ticks[middle]! <= local) low = middle;
      else high = middle;
    }
    this.index = low;
    return low;
  }
}
