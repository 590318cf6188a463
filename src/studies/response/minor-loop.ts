/**
 * Minor loop gain at a sled's node: impedance of everything else over the input impedance of its constant
 * power, Z_in = −v²/P. Its magnitude below 1/2 everywhere is sufficient (R. D. Middlebrook, IEEE Industry
 * Applications Society Annual Meeting, 1976) and no more than that: failing it warns. Whether −1 is passed, and
 * how near, judges (gain margin 6 dB, phase margin 60°, common practice).
 */
import type { Cabinet } from '../../engine/cabinet.ts';
import { type Complex, magnitude, over, scaled } from '../../linear/complex.ts';
import { ratio_dB } from '../../linear/decibels.ts';
import { lowestOf } from '../../linear/loops/lowest.ts';
import { type Margins, marginsOf } from '../../linear/loops/margins.ts';
import { type Curve, curveOf } from './curve.ts';

export interface MinorLoop extends Margins {
  readonly node: string;
  readonly highest_dB: number;
  readonly highest_Hz: number;
  /** Middlebrook's criterion, |T| ≤ −6 dB everywhere. */
  readonly middlebrook: 'met' | 'not met: a warning, no judgement';
  readonly curve: Curve;
}

interface Asked {
  readonly node: number;
  readonly name: string;
  /** Frequencies of the curve. */
  readonly frequencies: readonly number[];
  /** Impedance seen at the node, the sled's own slope included [Ω]. */
  readonly impedance: (frequency_Hz: number) => Complex;
  /** Frequencies that margins are looked for from. */
  readonly grid: readonly number[];
  /** Growing poles of the closed cabinet. */
  readonly growing: number;
}

export function minorLoopOf(
  { network, stepper }: Cabinet,
  { node, name, frequencies, impedance, grid, growing }: Asked,
): MinorLoop {
  const { sleds } = network;
  const k = [...sleds.node].indexOf(node);
  const v = stepper.v0[node]!;
  // A node without a sled is asked what one sled's power would do there.
  const P = sleds.power_W(k >= 0 ? k : 0, stepper.x0);
  const load_S = -P / (v * v);
  const gain = (frequency_Hz: number): Complex => {
    const whole = over({ re: 1, im: 0 }, impedance(frequency_Hz));
    const rest = over({ re: 1, im: 0 }, { re: whole.re - (k >= 0 ? load_S : 0), im: whole.im });
    return scaled(rest, load_S);
  };
  const highest = lowestOf(
    (frequency_Hz) => -magnitude(gain(frequency_Hz)),
    grid.map((frequency_Hz) => ({ frequency_Hz, value: -magnitude(gain(frequency_Hz)) })),
  );
  const highest_dB = ratio_dB(-highest.value);
  return {
    node: name,
    highest_dB,
    highest_Hz: highest.frequency_Hz,
    middlebrook: highest_dB <= ratio_dB(1 / 2) ? 'met' : 'not met: a warning, no judgement',
    ...marginsOf((frequency_Hz) => [[gain(frequency_Hz)]], grid, growing),
    curve: curveOf(`minor loop at ${name}`, '', frequencies, frequencies.map(gain)),
  };
}
