import { parameters, type Values } from '../parameter.ts';

/** A port of the management network: devices on one serial bus, asked one after the other. */
export const portParameters = parameters({
  period: {
    dimension: 'time',
    symbol: 'T',
    means: 'from the beginning of a round of polls to that of the next',
    min: 0,
    max: 1e5,
    exclusive: true,
    usual: [0.1, 60],
  },
  first: {
    dimension: 'time',
    symbol: 't_1',
    means: 'when the first round begins',
    min: 0,
    max: 1e6,
    fallback: 0,
  },
  bit_rate: {
    dimension: 'frequency',
    symbol: 'b',
    means: 'bits a second on the wire: 19.2 kHz are 19 200',
    min: 300,
    max: 1e8,
    usual: [1200, 1e6],
    fallback: 19_200,
  },
  registers: {
    dimension: 'count',
    symbol: 'r',
    means: 'registers of 16 bits that are read of each device in a round',
    min: 1,
    max: 10_000,
  },
  answer_delay: {
    dimension: 'time',
    symbol: 't_a',
    means: 'from the end of a request to the beginning of its answer, beside the silence of the bus',
    min: 0,
    max: 10,
    fallback: 0,
  },
  averaging: {
    dimension: 'time',
    symbol: 'a',
    means:
      'a device answers with its mean over this time before it is asked; 0: with the value at that instant',
    min: 0,
    max: 1e5,
    fallback: 0,
  },
  most_of_a_kind: {
    dimension: 'count',
    symbol: '—',
    means: 'devices of one kind that the port serves',
    min: 1,
    max: 247,
    fallback: 8,
  },
});

export type PortValues = Values<typeof portParameters>;
