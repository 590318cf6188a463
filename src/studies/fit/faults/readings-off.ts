/** Readings of one channel that are off all along: by their sign, their unit, a factor or a zero. */
import { type Beside, type Hypothesis, withColumn } from './fault.ts';

/** A factor beyond this is no gain of an instrument, but a sign, a unit or another channel. */
const mostGain = 2;
const thousands = [1e-6, 1e-3, 1e3, 1e6] as const;
/** A factor is one of these within this. */
const aboutThousand = 1.5;
const whole = { from_s: null, to_s: null } as const;

export function readingsOff(beside: Beside, c: number): Hypothesis[] {
  const { columns, simulated } = beside;
  const { channel: path, time_s, values } = columns[c]!;
  const without = (mended: Float64Array, larger = 1) => ({
    without: withColumn(beside, c, { time_s, values: mended }, larger),
    moved_s: null,
  });
  const factor = factorOf(values, simulated[c]!);
  const bias = biasOf(values, simulated[c]!);
  const unit = thousands.find((one) => Math.abs(Math.log(Math.abs(factor) / one)) < Math.log(aboutThousand));
  return [
    { fault: { kind: 'sign', path, ...whole }, ...without(values.map((m) => -m)) },
    ...(unit === undefined
      ? []
      : [
          {
            fault: { kind: 'unit' as const, path, factor: unit, ...whole },
            ...without(
              values.map((m) => m / unit),
              1 / unit,
            ),
          },
        ]),
    ...(isGain(factor)
      ? [
          {
            fault: { kind: 'gain' as const, path, gain_ratio: factor, ...whole },
            ...without(
              values.map((m) => m / factor),
              1 / factor,
            ),
          },
        ]
      : []),
    { fault: { kind: 'bias', path, bias }, ...without(values.map((m) => m - bias)) },
  ];
}

export function isGain(factor: number): boolean {
  return factor > 1 / mostGain && factor < mostGain;
}

/** Factor of m = g s by least squares, Σms/Σs², over what the run reaches. */
function factorOf(measured: Float64Array, simulated: Float64Array): number {
  let [ms, ss] = [0, 0];
  measured.forEach((m, i) => {
    const s = simulated[i]!;
    if (Number.isNaN(s)) return;
    ms += m * s;
    ss += s * s;
  });
  return ms / ss;
}

function biasOf(measured: Float64Array, simulated: Float64Array): number {
  let [sum, n] = [0, 0];
  measured.forEach((m, i) => {
    if (Number.isNaN(simulated[i]!)) return;
    sum += m - simulated[i]!;
    n++;
  });
  return sum / Math.max(1, n);
}
