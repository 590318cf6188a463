import { describe, expect, it } from 'vitest';
import { type Ending, outcomeOf } from '../../src/analysis/outcome.ts';
import type { LogEntry, LogKind } from '../../src/events/log.ts';
import { happens } from '../happens.ts';

function entry(time_s: number, who: string, what: LogKind, detail = ''): LogEntry {
  return { tick: time_s * 4e6, time_s, who, what, detail };
}

const ending: Ending = {
  status: 'ok',
  failure: null,
  time_s: 10,
  log: [],
  events: [],
  sledCount: 2,
  oscillation: null,
};

describe('what became of the cabinet', () => {
  it('is steady where nothing happened, edges of the load included', () => {
    const log = [entry(1, 'load', 'load-edge', 'rises')];
    expect(outcomeOf({ ...ending, log })).toMatchObject({ kind: 'steady', chain: [] });
  });

  it('is degraded while a stated outage lasts, a limit holds or batteries carry', () => {
    const events = [happens(1, 'tray-out', 'T4')];
    expect(outcomeOf({ ...ending, events, log: [entry(1, 'T4', 'tray-stop', 'out')] }).kind).toBe('degraded');
    expect(outcomeOf({ ...ending, log: [entry(1, 'S1', 'limit-on', 'at its limit')] }).kind).toBe('degraded');
    expect(outcomeOf({ ...ending, log: [entry(1, 'B1', 'battery-carry', 'carries')] }).kind).toBe('degraded');
  });

  it('has recovered once all is back: losses that return, events that pass, units that restart', () => {
    const events = [happens(1, 'ac-loss', 'all'), happens(3, 'ac-return', 'all')];
    const log = [
      entry(1, 'F1', 'event', 'AC lost'),
      entry(1.1, 'B1', 'battery-carry', 'carries'),
      entry(1.2, 'S1', 'dc-stop', 'stops'),
      entry(4, 'S1', 'dc-restart', 'starts'),
      entry(8, 'B1', 'battery-sleep', 'asleep'),
    ];
    const { kind, because, chain } = outcomeOf({ ...ending, events, log });
    expect(kind).toBe('recovered');
    expect(because).toBe('S1: stops; all is back');
    expect(chain[0]).toBe('At 1 s F1: AC lost.');
    const passing = { ...happens(2, 'ac-sag', 'F1'), amount: 0.6, for_s: 0.5 };
    expect(outcomeOf({ ...ending, events: [passing] }).kind).toBe('recovered');
    expect(outcomeOf({ ...ending, events: [{ ...passing, for_s: 20 }] }).kind).toBe('degraded');
  });

  it('is tripped when protection has left a unit off, though a limit freed it later', () => {
    const log = [entry(1, 'sled-1', 'sled-cut-off', 'off at 41 V'), entry(2, 'sled-1', 'limit-off', 'free')];
    expect(outcomeOf({ ...ending, log })).toMatchObject({
      kind: 'tripped',
      because: 'sled-1 off at the end: off at 41 V',
    });
    const back = [...log, entry(3, 'sled-1', 'sled-restart', 'on')];
    expect(outcomeOf({ ...ending, log: back }).kind).toBe('recovered');
  });

  it('counts a shelf without AC as out, not as tripped', () => {
    const events = [happens(1, 'ac-loss', 'F1')];
    const log = [
      entry(1.005, 'AC', 'ac-signal', 'told: AC lost'),
      entry(1.1, 'S1', 'dc-stop', 'bulk at 330.0 V'),
    ];
    expect(outcomeOf({ ...ending, events, log }).kind).toBe('degraded');
  });

  it('is collapsed when every sled was dark at one time, or the run says so', () => {
    const log = [
      entry(1, 'sled-1', 'sled-cut-off', 'off'),
      entry(2, 'sled-2', 'sled-cut-off', 'off'),
      entry(3, 'sled-1', 'sled-restart', 'on'),
      entry(3, 'sled-2', 'sled-restart', 'on'),
    ];
    expect(outcomeOf({ ...ending, log })).toMatchObject({
      kind: 'collapsed',
      because: 'all sleds were off at 2 s',
    });
    expect(outcomeOf({ ...ending, status: 'collapsed', failure: 'the bus collapsed' }).kind).toBe(
      'collapsed',
    );
  });
});
