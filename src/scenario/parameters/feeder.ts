import { parameters, type Values } from '../parameter.ts';

/** An AC supply. */
export const feederParameters = parameters({
  line_voltage: {
    dimension: 'voltage',
    symbol: 'V_LL',
    means: 'line to line, RMS',
    min: 1,
    max: 100000.0,
    exclusive: true,
  },
  frequency: {
    dimension: 'frequency',
    symbol: 'f',
    means: 'line frequency',
    min: 10,
    max: 1000,
    usual: [45, 65],
  },
  breaker_current: {
    dimension: 'current',
    symbol: 'I_n',
    means: 'breaker rating per phase',
    min: 0,
    max: 100000.0,
    exclusive: true,
  },
  short_circuit_power: {
    dimension: 'apparent_power',
    symbol: 'S_k',
    means: 'at the point of connection',
    min: 0,
    max: 1000000000000.0,
    exclusive: true,
  },
  reactance_ratio: { dimension: 'ratio', symbol: 'X/R', means: 'of the supply impedance', min: 0, max: 1000 },
  gives_way: {
    dimension: 'ratio',
    symbol: 'κ',
    means: 'share of the supply impedance that lowers the line voltage of the shelves; 0: a stiff line',
    min: 0,
    max: 1,
    fallback: 0,
  },
});

export type FeederValues = Values<typeof feederParameters>;
