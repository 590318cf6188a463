import { parameters, type Values } from '../parameter.ts';

/** The supervisor's power brake: what it holds the sleds to, and when. */
export const brakeParameters = parameters({
  level: {
    dimension: 'ratio',
    symbol: '—',
    means: 'share of their demand that braked sleds may draw; 100 % is no brake at all',
    min: 0,
    max: 1,
    fallback: 1,
  },
  shelves_out: {
    dimension: 'count',
    symbol: 'n',
    means: 'shelves out from which the supervisor brakes',
    min: 1,
    max: 1000,
    fallback: 2,
  },
  reserve: {
    dimension: 'ratio',
    symbol: '—',
    means: 'charge above the least of each battery shelf at which the supervisor brakes until AC carries',
    min: 0,
    max: 1,
    fallback: 0,
  },
  latency: {
    dimension: 'time',
    symbol: 't_lat',
    means: "from the supervisor's decision to the sleds",
    min: 0,
    max: 10,
    usual: [1e-4, 0.1],
    fallback: 1e-3,
    ticks: true,
  },
  hold: {
    dimension: 'time',
    symbol: 't_hold',
    means: 'time without a reason before the brake is released',
    min: 0,
    max: 3600,
    fallback: 1,
    ticks: true,
  },
  ramp: {
    dimension: 'time',
    symbol: '—',
    means: 'ramp of the allowed share after the brake is released',
    min: 0,
    max: 3600,
    exclusive: true,
    fallback: 0.5,
    ticks: true,
  },
});

export type BrakeValues = Values<typeof brakeParameters>;
