/**
 * Minor loop gain at a sled's node: impedance of everything else over the input impedance of its constant
 * power, Z_in = −v²/P. Its magnitude below 1/2 everywhere is sufficient (R. D. Middlebrook, IEEE Industry
 * Applications Society Annual Meeting, 1976) and no more than that: failing it warns. Whether −1 is passed, and
 * how near, judges (gain margin 6 dB, phase margin 60°, common practice).
 */
import type { Cabinet } from '../../engine/cabinet.ts';
import { type Complex, over, scaled } from '../../linear/complex.ts';
import { decibels, type Margins, marginsOf } from '../../linear/margins.ts';
import { type Curve, curveOf } from './curve.ts';

export interface MinorLoop extends Margins {
  readonly node: string;
  readonly highest_dB: number;
  readonly highest_Hz: number;
  /** Middlebrook's criterion, |T| ≤ −6 dB everywhere. */
  readonly middlebrook: 'met' | 'not met: a warning, no judgement';
  readonly curve: Curve;
}

/** From the impedance seen at the node, the sled's own slope included. */
export function minorLoopOf(
  { network, stepper }: Cabinet,
  node: number,
  name: string,
  frequencies: readonly number[],
  impedance: readonly Complex[],
): MinorLoop {
  const { sleds } = network;
  const k = [...sleds.node].indexOf(node);
  const v = stepper.v0[node]!;
  // A node without a sled is asked what one sled's power would do there.
  const P = sleds.power_W(k >= 0 ? k : 0, stepper.x0);
  const load_S = -P / (v * v);
  const values = impedance.map((Z) => {
    const whole = over({ re: 1, im: 0 }, Z);
    const rest = over({ re: 1, im: 0 }, { re: whole.re - (k >= 0 ? load_S : 0), im: whole.im });
    return scaled(rest, load_S);
  });
  const gains = values.map(decibels);
  const highest = Math.max(...gains);
  return {
    node: name,
    highest_dB: highest,
    highest_Hz: frequencies[gains.indexOf(highest)]!,
    middlebrook: highest <= -20 * Math.log10(2) ? 'met' : 'not met: a warning, no judgement',
    ...marginsOf(frequencies.map((frequency_Hz, j) => ({ frequency_Hz, value: values[j]! }))),
    curve: curveOf(`minor loop at ${name}`, '', frequencies, values),
  };
}
