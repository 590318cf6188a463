import { parameters, type Values } from '../parameter.ts';

/** Capacitors straight on the bus. */
export const bankParameters = parameters({
  capacitance: {
    dimension: 'capacitance',
    symbol: 'C',
    means: 'whole bank',
    min: 0,
    max: 10000.0,
    exclusive: true,
    usual: [0.01, 0.5],
  },
  esr: {
    dimension: 'resistance',
    symbol: 'r',
    means: 'series resistance of the capacitors',
    min: 0,
    max: 1,
    exclusive: true,
  },
  esl: {
    dimension: 'inductance',
    symbol: 'L',
    means: 'series inductance of connection and capacitors',
    min: 0,
    max: 0.001,
    exclusive: true,
  },
  connection: {
    dimension: 'resistance',
    symbol: 'R',
    means: 'resistance of the connection',
    min: 0,
    max: 1,
    fallback: 0,
  },
  ripple_current_rating: {
    dimension: 'current',
    symbol: '—',
    means: 'RMS ripple rating',
    min: 0,
    max: 1000000.0,
    exclusive: true,
  },
  rated_voltage: {
    dimension: 'voltage',
    symbol: 'V_r',
    means: 'rated voltage of the capacitors; 0: not stated',
    min: 0,
    max: 5000,
    fallback: 0,
  },
  thermal_time: {
    dimension: 'time',
    symbol: 'τ_th',
    means: 'thermal time constant of the capacitors; 0: not stated',
    min: 0,
    max: 1e5,
    fallback: 0,
  },
});

export type BankValues = Values<typeof bankParameters>;
