import { parameters, type Values, type Words, words } from '../parameter.ts';

/** Current share between shelves, and between battery shelves while they carry. */
export const shareParameters = parameters({
  period: {
    dimension: 'time',
    symbol: 'T_s',
    means: 'sampling period',
    min: 0,
    max: 10,
    exclusive: true,
    usual: [0.001, 0.05],
    ticks: true,
  },
  latency: {
    dimension: 'time',
    symbol: 'T_d',
    means: 'age of the samples when used',
    min: 0,
    max: 10,
    usual: [0.001, 0.05],
    ticks: true,
  },
  time_constant: {
    dimension: 'time',
    symbol: 'τ_sh',
    means: 'time constant aimed at',
    min: 0,
    max: 1000.0,
    exclusive: true,
    usual: [0.05, 1],
  },
  path_resistance: {
    dimension: 'resistance',
    symbol: 'R_line',
    means: 'of the path from shelf to load',
    min: 0,
    max: 1,
    bus: 2,
  },
  trim_limit: {
    dimension: 'voltage',
    symbol: 'U_max',
    means: 'clamp of the trim',
    min: 0,
    max: 100,
    exclusive: true,
    bus: 1,
  },
  trim_quantum: {
    dimension: 'voltage',
    symbol: '—',
    means: 'smallest step of the trim; 0 for none',
    min: 0,
    max: 10,
    bus: 1,
  },
  dead_band: {
    dimension: 'ratio',
    symbol: '—',
    means: 'error that is left alone, over rated',
    min: 0,
    max: 1,
  },
  leak_time: {
    dimension: 'time',
    symbol: 'T_leak',
    means: 'time constant of the leakage',
    min: 0,
    max: 1000000.0,
    exclusive: true,
  },
  highest_offset: {
    dimension: 'ratio',
    symbol: 'δ',
    means: 'in highest mode the target is this far below the highest current, over rated',
    min: 0,
    max: 0.5,
    fallback: 0.005,
  },
  age_limit: {
    dimension: 'time',
    symbol: '—',
    means: 'age beyond the latency at which the signal counts as lost',
    min: 0,
    max: 60,
    ticks: true,
    fallback: 0.1,
  },
});

/** What of the share is a word. */
export const shareWords = words({
  mode: {
    of: ['average', 'highest'],
    means: 'the common target: the mean current, or just below the highest with trims upward only',
    fallback: 'average',
  },
  on_lost: {
    of: ['freeze', 'decay'],
    means: 'trims on a lost signal: held, or faded with the leakage',
    fallback: 'freeze',
  },
  batteries: {
    of: ['alone', 'share'],
    means: 'battery shelves while they carry: each by its droop alone, or sharing like the shelves',
    fallback: 'alone',
  },
});

export type ShareValues = Values<typeof shareParameters> & Words<typeof shareWords>;
