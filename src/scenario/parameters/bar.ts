import { parameters, type Values } from '../parameter.ts';

/** A piece of bar, loop value of both conductors. */
export const barParameters = parameters({
  resistance: {
    dimension: 'resistance',
    symbol: 'R',
    means: 'loop resistance, joints included',
    min: 0,
    max: 1,
    exclusive: true,
    usual: [1e-6, 0.001],
  },
  inductance: {
    dimension: 'inductance',
    symbol: 'L',
    means: 'loop inductance',
    min: 0,
    max: 0.001,
    exclusive: true,
    usual: [1e-9, 1e-6],
  },
  rated_current: {
    dimension: 'current',
    symbol: 'I_50',
    means: 'continuous current that heats the bar by 50 K; 0: not stated',
    min: 0,
    max: 1e6,
    fallback: 0,
  },
  joint_resistance: {
    dimension: 'resistance',
    symbol: 'R_j',
    means: 'of the worst of its joints, part of its resistance; 0: not stated',
    min: 0,
    max: 0.01,
    usual: [2e-6, 1e-5],
    fallback: 0,
  },
  joint_thermal_resistance: {
    dimension: 'thermal_resistance',
    symbol: 'R_thj',
    means: 'from a joint to its surroundings, above what the bar beside it has; 0: not stated',
    min: 0,
    max: 1000,
    fallback: 0,
  },
  thermal_time: {
    dimension: 'time',
    symbol: 'τ_th',
    means: 'thermal time constant; 0: not stated',
    min: 0,
    max: 1e5,
    fallback: 0,
  },
});

export type BarValues = Values<typeof barParameters>;
