import type { RecordedReading } from '../../scenario/scenario.ts';

/** Reads with nothing given: the file itself must say what it holds. */
export const plainReading: RecordedReading = {
  time: null,
  power: [],
  current: [],
  voltage: null,
  channel: null,
  unit: null,
  where: [],
  dates: null,
  decimal: null,
  averaging_s: null,
  samples: null,
  sentinel: [],
  fresh: false,
  sort: false,
  align: false,
  overrule: false,
  at: 'device',
  side: 'dc',
  accept_ac: false,
  copies: null,
  coincidence: 'together',
  smoothed: false,
};
