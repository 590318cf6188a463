import { parameters } from '../parameter.ts';

/** What a shelf is made of and rated for, rectifiers and batteries alike. */
export const modules = parameters({
  module_count: { dimension: 'count', symbol: 'n', means: 'modules in the shelf', min: 1, max: 100 },
  module_power: {
    dimension: 'power',
    symbol: 'P_mod',
    means: 'rated output of one module',
    min: 0,
    max: 1000000.0,
    exclusive: true,
  },
  rated_voltage: {
    dimension: 'voltage',
    symbol: 'V_r',
    means: 'voltage at which the rated current is stated',
    min: 1,
    max: 2000,
    exclusive: true,
    bus: 1,
  },
  fold_back: {
    dimension: 'ratio',
    symbol: 'V_fold',
    means: 'bus voltage over rated below which the current that a resting stage takes falls to 0 with it',
    min: 0.1,
    max: 0.9,
    usual: [0.4, 0.8],
    fallback: 0.6,
  },
});
