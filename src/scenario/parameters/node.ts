import { parameters, type Values } from '../parameter.ts';

/** What a bar node carries of its own. */
export const nodeParameters = parameters({
  capacitance: {
    dimension: 'capacitance',
    symbol: 'C',
    means: 'shunt capacitance',
    min: 0,
    max: 10,
    exclusive: true,
  },
  esr: { dimension: 'resistance', symbol: 'r', means: 'its resistance', min: 0, max: 1, exclusive: true },
});

export type NodeValues = Values<typeof nodeParameters>;
