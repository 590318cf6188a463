/**
 * The lamp and the eye behind a flickermeter: what a change of voltage looks like.
 *
 * F(s) = k ω1 s/(s² + 2 λ s + ω1²) · (1 + s/ω2)/((1 + s/ω3)(1 + s/ω4)), after a first-order high-pass at
 * 0.05 Hz and a sixth-order Butterworth low-pass at 35 Hz (50 Hz systems) or 42 Hz (60 Hz systems).
 * Source: IEC 61000-4-15:2010, clause 4.4 and table 3 (constants are 2π times the numbers here).
 */
export type LampName = '230 V' | '120 V';

export interface Lamp {
  readonly name: LampName;
  readonly k: number;
  /** λ/2π, ω1/2π … ω4/2π [Hz]. */
  readonly lambda_Hz: number;
  readonly w1_Hz: number;
  readonly w2_Hz: number;
  readonly w3_Hz: number;
  readonly w4_Hz: number;
  /** Relative change, peak to peak, of an 8.8 Hz sine that gives P_inst,max = 1 (table 1). */
  readonly reference_ratio: number;
}

export const lamps: Readonly<Record<LampName, Lamp>> = {
  '230 V': {
    name: '230 V',
    k: 1.74802,
    lambda_Hz: 4.05981,
    w1_Hz: 9.15494,
    w2_Hz: 2.27979,
    w3_Hz: 1.22535,
    w4_Hz: 21.9,
    reference_ratio: 0.0025,
  },
  '120 V': {
    name: '120 V',
    k: 1.6357,
    lambda_Hz: 4.167375,
    w1_Hz: 9.077169,
    w2_Hz: 2.939902,
    w3_Hz: 1.394468,
    w4_Hz: 17.31512,
    reference_ratio: 0.00321,
  },
};

export const highPass_Hz = 0.05;
export const reference_Hz = 8.8;
/** Time constant of the smoothing after the squarer (block 4) [s]. */
export const smoothing_s = 0.3;

/** Corner of the demodulator's low-pass [Hz]. */
export function lowPass_Hz(line_Hz: number): number {
  return line_Hz < 55 ? 35 : 42;
}

/** The lamp that goes with a line frequency: the standard pairs 230 V with 50 Hz and 120 V with 60 Hz. */
export function lampAt(line_Hz: number): Lamp {
  return line_Hz < 55 ? lamps['230 V'] : lamps['120 V'];
}
