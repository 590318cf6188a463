import { parameters, type Values } from '../parameter.ts';

/** Battery start, carry and hand-back. */
export const handoverParameters = parameters({
  trigger_voltage: {
    dimension: 'voltage',
    symbol: 'V_start',
    means: 'bus voltage that starts the battery',
    min: 1,
    max: 2000,
    exclusive: true,
  },
  debounce: {
    dimension: 'time',
    symbol: 't_deb',
    means: 'time below before it counts',
    min: 0,
    max: 10,
    ticks: true,
  },
  start_time: {
    dimension: 'time',
    symbol: 't_start',
    means: 'from trigger to carrying',
    min: 0,
    max: 10,
    ticks: true,
  },
  set_point_on_loss: {
    dimension: 'voltage',
    symbol: 'V_bb',
    means: 'set point while AC is lost',
    min: 1,
    max: 2000,
    exclusive: true,
  },
  set_point_asleep: {
    dimension: 'voltage',
    symbol: 'V_bb',
    means: 'set point asleep, on an under-voltage start, and after hand-back',
    min: 1,
    max: 2000,
    exclusive: true,
  },
  return_time: {
    dimension: 'time',
    symbol: 't_ok',
    means: 'AC good for this long before hand-back',
    min: 0,
    max: 3600,
    ticks: true,
  },
  ramp: {
    dimension: 'time',
    symbol: 't_hb',
    means: 'ramp of the set point at hand-back',
    min: 0,
    max: 3600,
    exclusive: true,
    ticks: true,
  },
  idle_current: {
    dimension: 'ratio',
    symbol: '—',
    means: 'current over rated below which the shelf counts as idle',
    min: 0,
    max: 1,
  },
  idle_time: {
    dimension: 'time',
    symbol: '—',
    means: 'idle for this long before it sleeps',
    min: 0,
    max: 3600,
    ticks: true,
  },
});

export type HandoverValues = Values<typeof handoverParameters>;
