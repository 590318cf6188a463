import { parameters, type Values } from '../parameter.ts';

/** Supervision: protection timers and the AC-loss signal. */
export const supervisorParameters = parameters({
  period: {
    dimension: 'time',
    symbol: '—',
    means: 'sampling period of all firmware without a period of its own',
    min: 0,
    max: 1,
    exclusive: true,
    ticks: true,
  },
  detection: {
    dimension: 'time',
    symbol: 't_det',
    means: 'from AC loss to its detection',
    min: 0,
    max: 10,
    usual: [0.002, 0.01],
    ticks: true,
  },
  signal_latency: {
    dimension: 'time',
    symbol: 't_sig',
    means: 'from detection to the signal at trays and batteries',
    min: 0,
    max: 10,
    usual: [0.0001, 0.005],
    ticks: true,
  },
});

export type SupervisorValues = Values<typeof supervisorParameters>;
