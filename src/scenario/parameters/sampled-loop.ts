import { parameters } from '../parameter.ts';

/** The voltage loop of a shelf as a microcontroller runs it; continuous where its period is 0. */
export const sampledLoop = parameters({
  loop_period: {
    dimension: 'time',
    symbol: 'T_v',
    means:
      'sampling period of the voltage loop; 0: continuous, with control_delay and no other key of loop_…',
    min: 0,
    max: 0.01,
    usual: [5e-6, 2e-4],
    ticks: true,
    fallback: 0,
  },
  loop_latency: {
    dimension: 'time',
    symbol: 'T_c',
    means: 'from sampling to the new command: conversion and computation, one period at most',
    min: 0,
    max: 0.01,
    ticks: true,
    fallback: 0,
  },
  loop_jitter: {
    dimension: 'time',
    symbol: '—',
    means: 'largest random time that the command comes later',
    min: 0,
    max: 0.01,
    ticks: true,
    fallback: 0,
  },
  loop_voltage_bits: {
    dimension: 'count',
    symbol: '—',
    means: "bits of the loop's voltage converter; 0: exact",
    min: 0,
    max: 24,
    fallback: 0,
  },
  loop_voltage_range: {
    dimension: 'voltage',
    symbol: '—',
    means: 'voltage at which that converter ends, from 0 V',
    min: 0,
    max: 5000,
    fallback: 0,
  },
  loop_current_bits: {
    dimension: 'count',
    symbol: '—',
    means: "bits of the loop's current converter; 0: exact",
    min: 0,
    max: 24,
    fallback: 0,
  },
  loop_current_range: {
    dimension: 'current',
    symbol: '—',
    means: 'current at which that converter ends, from 0 A',
    min: 0,
    max: 1e6,
    fallback: 0,
  },
  loop_command_quantum: {
    dimension: 'current',
    symbol: '—',
    means: 'smallest step of the current command; 0 for none',
    min: 0,
    max: 1e4,
    fallback: 0,
  },
});
