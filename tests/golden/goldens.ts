/**
 * A few scalars of every shipped scenario, run whole. They hold what this engine gave when they were last looked
 * at; a change that moves one is looked at and, if meant, written here with its reason in the commit.
 * Bounds: 20 mV on the bus and 4 A on the shelf current, 0.5 % on larger currents and ripple, 1e-3 of the
 * window on charge. The first two are what sampled decisions leave open: a trim that rounds to the other side
 * moves a shelf by up to 12 A for a period, and a bulk that crosses its stop voltage a microsecond later stops
 * its shelf one supervision sample (0.1 ms) later. `node --import tsx scripts/golden-edges.ts` measures how far each moves.
 * A load that repeats and ends clear of every disturbance is judged on its cycle and may pass clean; every other run of
 * seconds leaves limits open that ask for minutes, and passes with conditions at best.
 */

export interface Golden {
  readonly verdict: string;
  readonly bus_min_V: number;
  readonly bus_max_V: number;
  readonly shelf_current_max_A: number;
  readonly ac_power_ripple_ratio: number;
  readonly tray_soc_min_ratio: number;
  readonly tray_capacitor_current_rms_A: number;
  readonly battery_starts_count: number;
  /** Wider bounds, where half the step moves a value by more than the usual one: a sample decides there. */
  readonly loose?: Partial<Record<GoldenMetric, number>>;
}

export type GoldenMetric = keyof typeof bounds;

/** What may move: a share of the value, and an absolute bound where the value is next to nothing. */
export const bounds = {
  bus_min_V: [0, 20e-3],
  bus_max_V: [0, 20e-3],
  shelf_current_max_A: [5e-3, 4],
  ac_power_ripple_ratio: [5e-3, 1e-4],
  tray_soc_min_ratio: [0, 1e-3],
  tray_capacitor_current_rms_A: [5e-3, 0.1],
} as const;

/** How far a value may lie from its golden one. */
export function boundOf(golden: Golden, metric: GoldenMetric): number {
  const [share, least] = bounds[metric];
  return golden.loose?.[metric] ?? Math.max(share * Math.abs(golden[metric]), least);
}

export const goldens: Readonly<Record<string, Golden>> = {
  'pulse-train': {
    verdict: 'pass',
    bus_min_V: 49.47,
    bus_max_V: 50.161,
    shelf_current_max_A: 624.46,
    ac_power_ripple_ratio: 0.082753,
    tray_soc_min_ratio: 0.26005,
    tray_capacitor_current_rms_A: 186.74,
    battery_starts_count: 0,
  },
  'pulse-train-400v': {
    // The usual bounds at 50 V, as shares of nominal and of the current at the same power.
    verdict: 'pass',
    bus_min_V: 397.43,
    bus_max_V: 401.02,
    shelf_current_max_A: 76.052,
    ac_power_ripple_ratio: 0.082452,
    tray_soc_min_ratio: 0.30241,
    tray_capacitor_current_rms_A: 152.03,
    battery_starts_count: 0,
    loose: { bus_min_V: 0.16, bus_max_V: 0.16, shelf_current_max_A: 0.5 },
  },
  'pulse-train-800v': {
    // The usual bounds at 50 V, as shares of nominal and of the current at the same power.
    verdict: 'pass',
    bus_min_V: 794.89,
    bus_max_V: 802.03,
    shelf_current_max_A: 38.044,
    ac_power_ripple_ratio: 0.08245,
    tray_soc_min_ratio: 0.30244,
    tray_capacitor_current_rms_A: 152.02,
    battery_starts_count: 0,
    loose: { bus_min_V: 0.32, bus_max_V: 0.32, shelf_current_max_A: 0.25 },
  },
  'start-from-idle-400v': {
    // 8 s of a load that does not repeat: bands, heat and flicker ask for more.
    verdict: 'pass_with_conditions',
    bus_min_V: 398.81,
    bus_max_V: 403.42,
    shelf_current_max_A: 71.359,
    ac_power_ripple_ratio: 1.2921,
    tray_soc_min_ratio: 0.23513,
    tray_capacitor_current_rms_A: 200.22,
    battery_starts_count: 0,
    loose: { bus_min_V: 0.16, bus_max_V: 0.16, shelf_current_max_A: 0.5 },
  },
  'start-from-idle-800v': {
    // 8 s of a load that does not repeat: bands, heat and flicker ask for more.
    verdict: 'pass_with_conditions',
    bus_min_V: 797.64,
    bus_max_V: 806.82,
    shelf_current_max_A: 35.663,
    ac_power_ripple_ratio: 1.2921,
    tray_soc_min_ratio: 0.23517,
    tray_capacitor_current_rms_A: 200.21,
    battery_starts_count: 0,
    loose: { bus_min_V: 0.32, bus_max_V: 0.32, shelf_current_max_A: 0.25 },
  },
  mirror: {
    verdict: 'pass',
    bus_min_V: 49.458,
    bus_max_V: 50.146,
    shelf_current_max_A: 623.33,
    ac_power_ripple_ratio: 0.08276,
    tray_soc_min_ratio: 0.26006,
    tray_capacitor_current_rms_A: 186.74,
    battery_starts_count: 0,
  },
  'single-step': {
    // 2 s of a load that does not repeat: bands, heat and flicker ask for more.
    verdict: 'pass_with_conditions',
    bus_min_V: 48.612,
    bus_max_V: 50.753,
    shelf_current_max_A: 672.54,
    ac_power_ripple_ratio: 0.50502,
    tray_soc_min_ratio: 0.37522,
    tray_capacitor_current_rms_A: 287.62,
    battery_starts_count: 0,
  },
  'shelf-trip': {
    // 4.9 s after the trip: bands wait 10 s, heat and flicker ask for more.
    verdict: 'pass_with_conditions',
    bus_min_V: 49.245,
    bus_max_V: 49.915,
    shelf_current_max_A: 670.67,
    ac_power_ripple_ratio: 0.046524,
    tray_soc_min_ratio: 0.21201,
    tray_capacitor_current_rms_A: 0.21544,
    battery_starts_count: 0,
  },
  'tray-out': {
    verdict: 'pass',
    bus_min_V: 49.469,
    bus_max_V: 50.161,
    shelf_current_max_A: 622.84,
    ac_power_ripple_ratio: 0.088867,
    tray_soc_min_ratio: 0.2313,
    tray_capacitor_current_rms_A: 204.88,
    battery_starts_count: 0,
  },
  'link-bar-out': {
    verdict: 'pass',
    bus_min_V: 49.447,
    bus_max_V: 50.22,
    shelf_current_max_A: 631.22,
    ac_power_ripple_ratio: 0.083078,
    tray_soc_min_ratio: 0.2598,
    tray_capacitor_current_rms_A: 186.83,
    battery_starts_count: 0,
  },
  'tie-open': {
    verdict: 'pass',
    bus_min_V: 49.47,
    bus_max_V: 50.162,
    shelf_current_max_A: 624.32,
    ac_power_ripple_ratio: 0.082754,
    tray_soc_min_ratio: 0.26005,
    tray_capacitor_current_rms_A: 186.74,
    battery_starts_count: 0,
  },
  'end-of-life': {
    verdict: 'pass',
    bus_min_V: 49.473,
    bus_max_V: 50.161,
    shelf_current_max_A: 627.4,
    ac_power_ripple_ratio: 0.082265,
    tray_soc_min_ratio: 0.20054,
    tray_capacitor_current_rms_A: 189.12,
    battery_starts_count: 0,
  },
  'ac-loss-and-return': {
    // No steady stretch long enough for bands beside the loss and the walk-in.
    verdict: 'pass_with_conditions',
    bus_min_V: 48.546,
    bus_max_V: 50.157,
    shelf_current_max_A: 665.41,
    ac_power_ripple_ratio: 1.7025,
    tray_soc_min_ratio: 0.27427,
    tray_capacitor_current_rms_A: 1.053,
    battery_starts_count: 5,
  },
  idle: {
    verdict: 'pass',
    bus_min_V: 50.159,
    bus_max_V: 50.206,
    shelf_current_max_A: 95.71,
    ac_power_ripple_ratio: 0.00032222,
    tray_soc_min_ratio: 0.85243,
    tray_capacitor_current_rms_A: 0.01963,
    battery_starts_count: 0,
  },
  'brown-out': {
    // Four shelves count AC as lost: batteries start as meant and share is judged clear of the walk-in.
    verdict: 'pass_with_conditions',
    bus_min_V: 49.418,
    bus_max_V: 50.157,
    shelf_current_max_A: 520.58,
    ac_power_ripple_ratio: 0.93939,
    tray_soc_min_ratio: 0.27573,
    tray_capacitor_current_rms_A: 0.97218,
    battery_starts_count: 5,
    // 49.48 V at half the step.
    loose: { bus_min_V: 0.1 },
  },
  'mixed-shelves': {
    // Too short after what happens for bands, heat and flicker.
    verdict: 'pass_with_conditions',
    bus_min_V: 48.849,
    bus_max_V: 50.651,
    shelf_current_max_A: 622.65,
    ac_power_ripple_ratio: 0.57958,
    tray_soc_min_ratio: 0.30138,
    tray_capacitor_current_rms_A: 162.79,
    battery_starts_count: 0,
  },
  'modules-out': {
    // Too short after the modules fail for bands, heat and flicker.
    verdict: 'pass_with_conditions',
    bus_min_V: 49.588,
    bus_max_V: 49.949,
    shelf_current_max_A: 592.44,
    ac_power_ripple_ratio: 0.065545,
    tray_soc_min_ratio: 0.28007,
    tray_capacitor_current_rms_A: 0.082214,
    battery_starts_count: 0,
  },
  // Six shelves at 109 to 111 % trip one after the other; a millionth of the droop and half the step keep their order.
  'overload-hiccup': {
    verdict: 'fail',
    bus_min_V: 44.094,
    bus_max_V: 50.692,
    shelf_current_max_A: 864,
    ac_power_ripple_ratio: 1.1953,
    tray_soc_min_ratio: 0.15985,
    tray_capacitor_current_rms_A: 5.05,
    battery_starts_count: 10,
  },
  'charge-to-full': {
    // Batteries charge and stop: nothing goes on like this for as long as heat and flicker ask.
    verdict: 'pass_with_conditions',
    bus_min_V: 49.612,
    bus_max_V: 49.951,
    shelf_current_max_A: 609.58,
    ac_power_ripple_ratio: 0.15568,
    tray_soc_min_ratio: 0.19796,
    tray_capacitor_current_rms_A: 8.357,
    battery_starts_count: 0,
  },
  'battery-empty': {
    verdict: 'fail',
    bus_min_V: 36.169,
    bus_max_V: 49.95,
    shelf_current_max_A: 863.63,
    ac_power_ripple_ratio: 3.9993,
    tray_soc_min_ratio: 0.27898,
    tray_capacitor_current_rms_A: 1.5481,
    battery_starts_count: 0,
    // 36.16 V at half the step.
    loose: { bus_min_V: 0.04 },
  },
  'battery-one-late': {
    verdict: 'fail',
    bus_min_V: 47.493,
    bus_max_V: 50.108,
    shelf_current_max_A: 818.89,
    ac_power_ripple_ratio: 1.9469,
    tray_soc_min_ratio: 0.13955,
    tray_capacitor_current_rms_A: 1.1281,
    battery_starts_count: 5,
    // 47.67 V at half the step.
    loose: { bus_min_V: 0.3 },
  },
  'fast-signal': {
    verdict: 'pass',
    bus_min_V: 49.596,
    bus_max_V: 50.077,
    shelf_current_max_A: 583.57,
    ac_power_ripple_ratio: 0.082912,
    tray_soc_min_ratio: 0.26004,
    tray_capacitor_current_rms_A: 186.75,
    battery_starts_count: 0,
  },
  'tray-assist': {
    // Too short beside AC loss for bands, heat and flicker.
    verdict: 'pass_with_conditions',
    bus_min_V: 48.644,
    bus_max_V: 51.03,
    shelf_current_max_A: 645.27,
    ac_power_ripple_ratio: 5.9989,
    tray_soc_min_ratio: 0.27781,
    tray_capacitor_current_rms_A: 12.926,
    battery_starts_count: 5,
  },
  'hot-swap': {
    // Too short after the sled is swapped for bands, heat and flicker.
    verdict: 'pass_with_conditions',
    bus_min_V: 49.647,
    bus_max_V: 50.062,
    shelf_current_max_A: 520.04,
    ac_power_ripple_ratio: 0.041045,
    tray_soc_min_ratio: 0.28006,
    tray_capacitor_current_rms_A: 16.834,
    battery_starts_count: 0,
  },
  'uneven-load': {
    verdict: 'pass',
    bus_min_V: 49.851,
    bus_max_V: 50.082,
    shelf_current_max_A: 322.13,
    ac_power_ripple_ratio: 0.000090827,
    tray_soc_min_ratio: 0.55118,
    tray_capacitor_current_rms_A: 0.018535,
    battery_starts_count: 0,
  },
  'line-sag': {
    verdict: 'fail',
    bus_min_V: 39.816,
    bus_max_V: 51.298,
    shelf_current_max_A: 672.6,
    ac_power_ripple_ratio: 0.40416,
    tray_soc_min_ratio: 0.14389,
    tray_capacitor_current_rms_A: 258.17,
    battery_starts_count: 5,
    // 39.85 V and 51.40 V at half the step.
    loose: { bus_min_V: 0.05, bus_max_V: 0.15 },
  },
  'weak-feeder': {
    verdict: 'fail',
    // 47.587 V at half the step, 47.614 V at a quarter; without the trims' quantum 47.561 V at every step.
    bus_min_V: 47.567,
    bus_max_V: 50.22,
    shelf_current_max_A: 864,
    ac_power_ripple_ratio: 2.6667,
    tray_soc_min_ratio: 0.54655,
    tray_capacitor_current_rms_A: 94.818,
    battery_starts_count: 5,
  },
  'coolant-loss': {
    verdict: 'fail',
    bus_min_V: 46.526,
    bus_max_V: 50.335,
    shelf_current_max_A: 535.67,
    ac_power_ripple_ratio: 0.32734,
    tray_soc_min_ratio: 0.27967,
    tray_capacitor_current_rms_A: 2,
    battery_starts_count: 5,
  },
  'reverse-feed': {
    verdict: 'fail',
    bus_min_V: 48.997,
    bus_max_V: 50.15,
    shelf_current_max_A: 670.32,
    ac_power_ripple_ratio: 0.11115,
    tray_soc_min_ratio: 0.28006,
    tray_capacitor_current_rms_A: 0.40798,
    battery_starts_count: 0,
  },
};
