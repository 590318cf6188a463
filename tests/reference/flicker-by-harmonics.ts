/**
 * A second flicker meter, for a load that repeats without end: every filter of IEC 61000-4-15:2010 as its transfer
 * function at the harmonics of the cycle, so that nothing is stepped through time and nothing has to settle. Lamp of
 * 230 V, 60 W at 50 Hz (table 1 of the standard). It shares no line with `src/analysis/flicker`.
 */

interface Complex {
  readonly re: number;
  readonly im: number;
}

function times(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

function over(a: Complex, b: Complex): Complex {
  const square = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / square, im: (a.im * b.re - a.re * b.im) / square };
}

/** Polynomial c0 + c1 s + c2 s² at s = iω. */
function at(w: number, c0: number, c1: number, c2 = 0): Complex {
  return { re: c0 - c2 * w * w, im: c1 * w };
}

/** High-pass of 0.05 Hz, Butterworth of sixth order at 35 Hz, weighting by lamp and eye. */
function eye(f_Hz: number): Complex {
  const w = 2 * Math.PI * f_Hz;
  let H = over(at(w, 0, 1), at(w, 2 * Math.PI * 0.05, 1));
  const corner = 2 * Math.PI * 35;
  for (const damping of [0.5176380902050415, Math.SQRT2, 1.9318516525781366])
    H = over(H, at(w, 1, damping / corner, 1 / corner ** 2));
  const [k, lambda, w1, w2, w3, w4] = [1.74802, 4.05981, 9.15494, 2.27979, 1.22535, 21.9].map((x, j) =>
    j === 0 ? x : 2 * Math.PI * x,
  ) as [number, number, number, number, number, number];
  H = times(H, over(at(w, 0, k * w1), at(w, w1 * w1, 2 * lambda, 1)));
  return times(H, over(at(w, 1, 1 / w2), times(at(w, 1, 1 / w3), at(w, 1, 1 / w4))));
}

/** The values of a periodic signal after a filter, both at the same points, by sums over harmonics up to `most_Hz`. */
function filtered(
  x: Float64Array,
  rate_Hz: number,
  most_Hz: number,
  filter: (f_Hz: number) => Complex,
): Float64Array {
  const n = x.length;
  const cosine = Float64Array.from({ length: n }, (_, j) => Math.cos((2 * Math.PI * j) / n));
  const sine = Float64Array.from({ length: n }, (_, j) => Math.sin((2 * Math.PI * j) / n));
  const out = new Float64Array(n);
  const last = Math.floor((most_Hz * n) / rate_Hz);
  for (let k = 0; k <= last; k++) {
    let re = 0;
    let im = 0;
    for (let j = 0, p = 0; j < n; j++, p = (p + k) % n) {
      re += x[j]! * cosine[p]!;
      im -= x[j]! * sine[p]!;
    }
    const scale = (k === 0 ? 1 : 2) / n;
    const y = times({ re: re * scale, im: im * scale }, filter((k * rate_Hz) / n));
    for (let j = 0, p = 0; j < n; j++, p = (p + k) % n) out[j]! += y.re * cosine[p]! - y.im * sine[p]!;
  }
  return out;
}

/**
 * P_inst of an envelope (RMS voltage over its mean) that repeats, before it is scaled. The line's phase is 0 at the first
 * sample: against edges of 5 ms that repeat in step with the line another phase moves P_st by some 0.6 %.
 */
function sensed(envelope: Float64Array, rate_Hz: number): Float64Array {
  const demodulated = envelope.map((e, j) => e * e * (1 - Math.cos((2 * Math.PI * 100 * j) / rate_Hz)));
  const squared = filtered(demodulated, rate_Hz, 150, eye).map((x) => x * x);
  return filtered(squared, rate_Hz, 300, (f) => over({ re: 1, im: 0 }, at(2 * Math.PI * f, 1, 0.3)));
}

/** What makes 1 of the standard's test: 8.8 Hz, relative change of 0.25 %, peak P_inst. */
function unit(rate_Hz: number): number {
  const envelope = Float64Array.from(
    { length: 5 * rate_Hz },
    (_, j) => 1 + (0.0025 / 2) * Math.sin((2 * Math.PI * 8.8 * (j + 0.5)) / rate_Hz),
  );
  return sensed(envelope, rate_Hz).reduce((a, b) => Math.max(a, b));
}

/** P_st of a power that repeats, given the relative fall of the voltage per watt. */
export function shortTermByHarmonics(power_W: Float64Array, rate_Hz: number, fall_per_W: number): number {
  const mean_W = power_W.reduce((a, b) => a + b, 0) / power_W.length;
  const one = unit(rate_Hz);
  const P = sensed(
    power_W.map((p) => 1 - fall_per_W * (p - mean_W)),
    rate_Hz,
  )
    .map((p) => p / one)
    .sort();
  const exceeded = (percent: number): number => P[Math.floor((1 - percent / 100) * (P.length - 1))]!;
  const mean = (...percents: readonly number[]): number =>
    percents.reduce((sum, percent) => sum + exceeded(percent), 0) / percents.length;
  return Math.sqrt(
    0.0314 * exceeded(0.1) +
      0.0525 * mean(0.7, 1, 1.5) +
      0.0657 * mean(2.2, 3, 4) +
      0.28 * mean(6, 8, 10, 13, 17) +
      0.08 * mean(30, 50, 80),
  );
}
