import { parameters } from '../parameter.ts';

/**
 * What one unit costs, weighs and takes up in the rack: figures of whoever buys it, for choosing among designs. No run
 * reads them, and no model that comes with the project states one. A rack unit is 44.45 mm (IEC 60297, from memory).
 */
export const figureParameters = parameters({
  cost: {
    dimension: 'amount',
    symbol: '—',
    means: 'price of one unit, in the currency of all other prices',
    min: 0,
    max: 1e12,
    optional: true,
  },
  mass: {
    dimension: 'mass',
    symbol: '—',
    means: 'mass of one unit',
    min: 0,
    max: 1e6,
    optional: true,
  },
  rack_units: {
    dimension: 'amount',
    symbol: '—',
    means: 'height that one unit takes in the rack, in rack units',
    min: 0,
    max: 1000,
    optional: true,
  },
});

export type Figure = keyof typeof figureParameters;
