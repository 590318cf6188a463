/** An instrument between what happened and what was written down, as its data sheet or its owner declares it. */

export interface Sensor {
  readonly kind: SensorKind;
  /** Below this it shows nothing, by one pole; null: it shows the steady part too. */
  readonly low_corner_Hz: number | null;
  /** Its anti-alias filter, one pole; null: above what a stream shows. */
  readonly corner_Hz: number | null;
  /** A reading is the mean over so long before its stamp [s]; 0: an instant. */
  readonly averaging_s: number;
  /** Largest value that it can show, either sign, in the channel's unit; null: not known. */
  readonly range: number | null;
  /** Known factor of its readings: so much of what happened stands in the file, and is divided out. */
  readonly scale_ratio: number;
  /** Class: how far a reading may be off, as a share of itself, and as a share of the range. */
  readonly gain_ratio: number;
  readonly bias_ratio: number;
}

export type SensorKind = 'shunt' | 'hall' | 'rogowski' | 'divider' | 'meter';

const instant = {
  low_corner_Hz: null,
  corner_Hz: null,
  averaging_s: 0,
  range: null,
  scale_ratio: 1,
};

/**
 * What each kind is taken to be where nothing else is declared. All numbers: common practice, no source. A declared
 * value takes the place of any of them.
 */
export const sensorKinds: Readonly<Record<SensorKind, Sensor>> = {
  /** Resistor in the path: shows the steady part; its class is that of the resistor. */
  shunt: { ...instant, kind: 'shunt', gain_ratio: 0.0025, bias_ratio: 0.0005 },
  /** Closed-loop current sensor about the conductor, with an offset from remanence. */
  hall: { ...instant, kind: 'hall', gain_ratio: 0.005, bias_ratio: 0.005 },
  /** Coil without a core and an integrator: no steady part, and a slow droop instead of a plateau. */
  rogowski: {
    ...instant,
    kind: 'rogowski',
    low_corner_Hz: 1,
    gain_ratio: 0.01,
    bias_ratio: 0.002,
  },
  /** Resistive divider before a recorder, for voltages. */
  divider: {
    ...instant,
    kind: 'divider',
    gain_ratio: 0.002,
    bias_ratio: 0.001,
  },
  /** Panel or power meter: a mean over a fifth of a second. */
  meter: {
    ...instant,
    kind: 'meter',
    averaging_s: 0.2,
    gain_ratio: 0.005,
    bias_ratio: 0.001,
  },
};
