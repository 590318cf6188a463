/** A run too short for what it is asked to show passes nothing, in whatever way it is made short. */
import { describe, expect, it } from 'vitest';
import { askForLong, attacked, expectNotShown, findingOf } from './attacked.ts';

describe('a load cut before it has done what it is there to show', () => {
  it.each([
    ['a ladder on its way up', 'step-ladder', { duration: '9.9 s' }, /the ladder is over at 18.005 s/],
    ['a run that ends before its step', 'single-step', { duration: '0.05 s' }, /the step is over at 0.101 s/],
    ['one that ends 20 ms after it', 'single-step', { duration: '0.12 s' }, /the step is over at 0.101 s/],
    ['a step moved behind the end', 'single-step', { 'load.at': '2.5 s' }, /the step is over at 2.501 s/],
    [
      'the same behind a governor, which ends with the run',
      'single-step',
      { 'load.at': '3 s', duration: '2.5 s', 'sleds.governor_floor': '1 %' },
      /the step is over at 3.001 s/,
    ],
    ['a step that the warm-up cuts away', 'single-step', { warm_up: '1.9 s' }, /begins at 0.1 s, before/],
    [
      'a period longer than the run',
      'mirror',
      { duration: '3 s', start: 'settled', 'load.period': '4 s' },
      /one period of 4 s is longer/,
    ],
    [
      'requests that have hardly begun',
      'inference-bursts',
      { duration: '1 s', warm_up: '0 s' },
      /the mean time between requests of 2 s is longer/,
    ],
    [
      'a trend on its way up',
      'training-iterations',
      { duration: '15.9 s' },
      /the top of the trend comes at 14 s; the judged window ends at 15.9 s, and a run of 16 s would show it/,
    ],
    [
      'a trend of hours, which goes beyond what the cabinet can carry',
      'training-iterations',
      { 'load.trend': '60 %', 'load.trend_period': '6000 s' },
      /the top of the trend comes at 1426 s/,
    ],
    [
      'a swell of requests',
      'inference-bursts',
      { 'load.swell': '50 %', 'load.swell_period': '1000 s' },
      /the top of the swell comes at 250 s/,
    ],
  ])('%s', (_what, name, changes, phrase) => {
    expectNotShown(attacked(name, { changes }), phrase);
  });

  it.each([
    [
      'a start-up',
      '  kind: start-up\n  low: 30 kW\n  loading: 60 kW\n  high: 200 kW\n  at: 0.2 s\n  loading_length: 1 s\n' +
        '  unsteady: 2\n  unsteady_period: 1 s\n  rise: 1 s\n  edge: 10 ms\n',
      /the start is over at/,
    ],
    [
      'an abort without its restart',
      '  kind: abort\n  high: 200 kW\n  low: 30 kW\n  at: 0.2 s\n  edge: 20 ms\n  pause: 3 s\n  rise: 1 s\n',
      /the abort and restart is over at/,
    ],
    [
      'a sweep at its first frequencies',
      '  kind: sweep-square\n  low: 100 kW\n  high: 150 kW\n  from: 1 Hz\n  to: 50 Hz\n  steps: 6\n  hold: 1 s\n  edge: 1 ms\n',
      /the sweep is over at/,
    ],
  ])('%s', (_what, load, phrase) => {
    expectNotShown(attacked('idle', { load, changes: { duration: '1.5 s' } }), phrase);
  });
});

describe('an event that the window does not show', () => {
  it.each([
    ['before the warm-up ends', { duration: '2 s', warm_up: '0.5 s' }, 0.2, /lies before the judged window/],
    ['after the end', { duration: '2 s' }, 2.2, /lies after the judged window/],
    ['just before the end', { duration: '2 s' }, 1.8, /has less than 0.5 s after it/],
  ])('%s', (_when, changes, at_s, phrase) => {
    expectNotShown(attacked('idle', { changes, happens: [`shelf-trip S3 at ${at_s} s`] }), phrase);
  });

  it('in the part of a period that whole periods leave over', () => {
    const run = attacked('mirror', { changes: { duration: '3.1 s' }, happens: ['tray-out T4 at 2 s'] });
    expectNotShown(run, /tray-out T4 at 2 s lies after the judged window, which ends at 1.6 s/);
  });
});

describe('limits that ask for longer than was run', () => {
  it.each([
    ['a constant load of 0.1 s', 'idle', { duration: '0.1 s' }],
    ['a constant load of 1.9 s', 'idle', { duration: '1.9 s' }],
    ['one step of the load', 'single-step', {}],
    ['requests at random, after 6 s', 'inference-bursts', { duration: '6 s' }],
  ])('stay open with %s', (_what, name, changes) => {
    const { report } = attacked(name, { changes });
    expect(report.verdict).toBe('pass_with_conditions');
    for (const id of askForLong) expect([id, findingOf(report, id).verdict]).toEqual([id, 'inconclusive']);
  });

  it('are judged on a constant load from two seconds on, which is its cycle', () => {
    const { report } = attacked('idle', { changes: { duration: '2 s' } });
    expect(report.verdict).toBe('pass');
    for (const id of askForLong) expect([id, findingOf(report, id).verdict]).toEqual([id, 'pass']);
  });
});
