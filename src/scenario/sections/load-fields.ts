/** What each kind of load is described by. `undefined` fallback: must be given; `null`: may be left out. */

import type { Dimension, ParameterSpec } from '../parameter.ts';
import { syntheticLoads } from '../synthetic-loads.ts';
import { type FieldSpec, quantity } from '../text/field.ts';

export interface LoadField {
  readonly field: FieldSpec;
  readonly fallback?: number | string | boolean | null;
}

const power = (means: string): LoadField => ({ field: quantity(spec('power', means, 0, 1e9)) });

const time = (means: string, fallback?: number): LoadField =>
  fallback === undefined
    ? { field: quantity({ ...spec('time', means, 0, 1e6), ticks: true }) }
    : { field: quantity(spec('time', means, 0, 1e6)), fallback };

const edge: LoadField = {
  field: quantity({
    ...spec('time', 'duration of an edge', 0, 1e4),
    usual: [1e-4, 1],
    exclusive: true,
    ticks: true,
  }),
};

export const loadKinds: Readonly<Record<string, Readonly<Record<string, LoadField>>>> = {
  constant: { power: power('power of the whole cabinet') },
  step: {
    before: power('power before the step'),
    after: power('power after the step'),
    at: time('when the step begins'),
    edge,
  },
  'pulse-train': {
    low: power('lower level'),
    high: power('upper level'),
    period: { field: quantity({ ...spec('time', 'period', 0, 1e5), exclusive: true, ticks: true }) },
    duty: { field: quantity({ ...spec('ratio', 'share of the period at the upper level', 0, 1) }) },
    edge,
    spread: time("largest shift of a sled's pulses against the first sled's", 0),
    scatter: time("largest random shift of a sled's pulses, drawn evenly", 0),
    jitter: time("standard deviation of a period's length", 0),
  },
  recorded: {
    file: { field: { kind: 'text', means: 'path of the recording' } },
    from: { field: quantity(spec('time', 'start of the stretch that is played', 0, 1e9)), fallback: 0 },
    to: { field: quantity(spec('time', 'end of the stretch that is played', 0, 1e9)) },
    peak: {
      field: quantity({ ...spec('power', 'highest total power after scaling', 0, 1e9), exclusive: true }),
      fallback: null,
    },
    scale: {
      field: quantity({ ...spec('ratio', 'factor on the recorded power', 0, 1e9), exclusive: true }),
      fallback: null,
    },
    edges: {
      field: { kind: 'choice', of: ['smooth', 'sharp', 'both'], means: 'interpolation between two samples' },
      fallback: 'smooth',
    },
    edge: {
      field: quantity({
        ...spec('time', 'duration of an edge where edges are sharp', 0, 1e3),
        exclusive: true,
        ticks: true,
      }),
      fallback: 0.005,
    },
    loop: { field: { kind: 'flag', means: 'the stretch is played again and again' }, fallback: false },
  },
  ...Object.fromEntries(Object.entries(syntheticLoads).map(([kind, table]) => [kind, fieldsOf(table)])),
};

function fieldsOf(table: Readonly<Record<string, ParameterSpec>>): Record<string, LoadField> {
  return Object.fromEntries(
    Object.entries(table).map(([key, spec]) => [
      key,
      spec.fallback === undefined
        ? { field: quantity(spec) }
        : { field: quantity(spec), fallback: spec.fallback },
    ]),
  );
}

/** How a recording is to be read, below `reading:`. */
export const readingFields: Readonly<Record<string, LoadField>> = {
  time: { field: { kind: 'text', means: 'column of the time stamps' }, fallback: null },
  power: {
    field: { kind: 'text', means: 'columns of power, summed, separated by commas' },
    fallback: null,
  },
  current: {
    field: { kind: 'text', means: 'columns of current, summed, separated by commas' },
    fallback: null,
  },
  voltage: {
    field: { kind: 'text', means: 'column of the voltage, or its value, for example 50 V' },
    fallback: null,
  },
  channel: { field: { kind: 'text', means: 'column that names the channel (long form)' }, fallback: null },
  dates: {
    field: { kind: 'choice', of: ['day-first', 'month-first'], means: 'order of day and month' },
    fallback: null,
  },
  decimal: {
    field: { kind: 'choice', of: ['comma', 'point'], means: 'decimal mark' },
    fallback: null,
  },
  averaging: {
    field: quantity({ ...spec('time', 'time over which the sensor averaged', 0, 1e6), exclusive: true }),
    fallback: null,
  },
  samples: {
    field: {
      kind: 'choice',
      of: ['means', 'instants'],
      means: 'what a sample is: a mean over its interval, or an instant',
    },
    fallback: null,
  },
  sentinel: {
    field: { kind: 'text', means: 'values that mean that nothing was read, separated by commas' },
    fallback: null,
  },
  fresh: { field: { kind: 'flag', means: 'repeated values are the load itself' }, fallback: false },
  sort: { field: { kind: 'flag', means: 'stamps that jump back are out of order' }, fallback: false },
  align: { field: { kind: 'flag', means: 'channels are aligned in time' }, fallback: false },
  overrule: {
    field: { kind: 'flag', means: 'what is stated holds where the file says otherwise' },
    fallback: false,
  },
  accept_ac: {
    field: { kind: 'flag', means: 'an AC recording may be used as the DC load' },
    fallback: false,
  },
  unit: { field: { kind: 'text', means: 'unit of the power columns' }, fallback: null },
  where: { field: { kind: 'text', means: 'rows that count, as COLUMN=VALUE' }, fallback: null },
  at: {
    field: { kind: 'choice', of: ['device', 'sled', 'rack'], means: 'what was measured' },
  },
  side: { field: { kind: 'choice', of: ['dc', 'ac'], means: 'side that was measured' } },
  copies: {
    field: quantity(spec('count', 'how many such devices there are', 1, 1e6)),
    fallback: null,
  },
  coincidence: {
    field: {
      kind: 'choice',
      of: ['together', 'spread', 'worst'],
      means: 'how copies run against each other',
    },
    fallback: 'together',
  },
  smoothed: { field: { kind: 'flag', means: 'other smoothing was on while recording' }, fallback: false },
};

function spec(dimension: Dimension, means: string, min: number, max: number): ParameterSpec {
  return { dimension, symbol: '—', means, min, max };
}
