import { describe, expect, it } from 'vitest';
import { type Ending, outcomeOf } from '../../../src/analysis/judge/outcome.ts';
import type { LogEntry, LogKind } from '../../../src/events/log.ts';
import { spanOf } from '../../recorded.ts';

function entry(time_s: number, who: string, what: LogKind, detail = ''): LogEntry {
  return { tick: time_s * 4e6, time_s, who, what, detail };
}

const ending: Ending = {
  status: 'ok',
  failure: null,
  time_s: 10,
  log: [],
  spans: [],
  sledCount: 2,
  oscillation: null,
};

describe('what became of the cabinet', () => {
  it('is steady where nothing happened, edges of the load included', () => {
    const log = [entry(1, 'load', 'load-edge', 'rises')];
    expect(outcomeOf({ ...ending, log })).toMatchObject({ kind: 'steady', chain: [] });
  });

  it('is steady through what belongs to how units work: slew, charging, an event that changed nothing', () => {
    const spans = [
      spanOf('at-limit', 'S1', 'slew', 1, 1.001),
      spanOf('charging', 'B1', '', 2),
      spanOf('at-limit', 'B1', 'charge', 2),
    ];
    const log = [entry(1, 'S1', 'event', 'set point moves to 50.50 V')];
    expect(outcomeOf({ ...ending, log, spans })).toMatchObject({ kind: 'steady', chain: [] });
  });

  it.each([
    ['a unit is out', spanOf('out', 'T4', 'taken out', 1), 'T4 taken out to the end'],
    ['a bar is open', spanOf('out', 'LA1', 'opened', 1), 'LA1 opened to the end'],
    ['a parameter is altered', spanOf('altered', 'K1', 'bank-out', 1), 'bank-out K1 to the end'],
    ['AC is lost', spanOf('ac-lost', 'S1', 'feeder', 1), 'AC lost at S1 to the end'],
    ['a shelf walks in', spanOf('walk-in', 'S1', '', 1), 'walk-in S1 to the end'],
    ['a limit holds', spanOf('at-limit', 'S1', 'current', 1), 'S1: at its limit (current), to the end'],
    ['a limit held a moment ago', spanOf('at-limit', 'S1', 'power', 1, 9.995), /^S1: at its limit/],
    ['batteries carry', spanOf('carrying', 'B1', '', 1), 'B1 still carry at the end'],
    ['trays stand still', spanOf('frozen', 'trays', '', 1), /^trays: frozen, to the end/],
  ])('is degraded while %s', (_, span, because) => {
    expect(outcomeOf({ ...ending, spans: [span] })).toMatchObject({
      kind: 'degraded',
      because: typeof because === 'string' ? because : expect.stringMatching(because),
    });
  });

  it('names first which supplies collapsed, whoever carries the bus', () => {
    const spans = [
      spanOf('collapsed', 'F2', '', 4, 5),
      spanOf('collapsed', 'F1', '', 4.2, 5),
      spanOf('carrying', 'B1', '', 4.1),
    ];
    expect(outcomeOf({ ...ending, spans })).toMatchObject({
      kind: 'degraded',
      because: 'the supply of F2 and F1 collapsed at 4 s; B1 still carry at the end',
    });
  });

  it('has recovered once all is back: losses that return, alterations that pass, units that restart', () => {
    const spans = [
      spanOf('ac-lost', 'S1', 'feeder', 1, 3.5),
      spanOf('carrying', 'B1', '', 1.1, 8),
      spanOf('out', 'S1', 'bulk empty', 1.2, 4),
      spanOf('walk-in', 'S1', '', 3.5, 7),
    ];
    const log = [
      entry(1, 'F1', 'event', 'AC lost'),
      entry(1.1, 'B1', 'battery-carry', 'carries'),
      entry(1.2, 'S1', 'dc-stop', 'stops'),
      entry(4, 'S1', 'dc-restart', 'starts'),
      entry(8, 'B1', 'battery-sleep', 'asleep'),
    ];
    const { kind, because, chain } = outcomeOf({ ...ending, spans, log });
    expect(kind).toBe('recovered');
    expect(because).toBe('S1: stops; all is back');
    expect(chain[0]).toBe('At 1 s F1: AC lost.');
    const sag = spanOf('altered', 'F1', 'ac-sag', 2, 2.5);
    expect(outcomeOf({ ...ending, spans: [sag] })).toMatchObject({
      kind: 'recovered',
      because: 'what happened is over',
    });
  });

  it('is tripped when protection has left a unit off, whatever the log stopped telling', () => {
    const spans = [spanOf('out', 'sled-1', 'cut off', 1)];
    const log = [entry(1, 'sled-1', 'sled-cut-off', 'off at 41 V'), entry(2, 'sled-1', 'limit-off', 'free')];
    expect(outcomeOf({ ...ending, spans, log })).toMatchObject({
      kind: 'tripped',
      because: 'sled-1 off at the end: off at 41 V',
    });
    expect(outcomeOf({ ...ending, spans: [spanOf('out', 'sled-1', 'cut off', 1, 3)], log }).kind).toBe(
      'recovered',
    );
  });

  it('counts a shelf without AC, or on its way back, as out, not as tripped', () => {
    const empty = spanOf('out', 'S1', 'bulk empty', 1.1);
    const lost = spanOf('ac-lost', 'S1', 'feeder', 1);
    expect(outcomeOf({ ...ending, spans: [lost, empty] }).kind).toBe('degraded');
    expect(outcomeOf({ ...ending, spans: [spanOf('walk-in', 'S1', '', 9), empty] }).kind).toBe('degraded');
    const other = spanOf('ac-lost', 'S2', 'feeder', 1);
    expect(outcomeOf({ ...ending, spans: [other, empty] }).kind).toBe('tripped');
  });

  it('has collapsed when the bus did, or when all sleds were off at one time', () => {
    const cut = (time_s: number, sled: string) => entry(time_s, sled, 'sled-cut-off', 'off at 40 V');
    const log = [cut(1, 'sled-1'), cut(1.5, 'sled-2'), entry(3, 'sled-1', 'sled-restart')];
    expect(outcomeOf({ ...ending, log })).toMatchObject({
      kind: 'collapsed',
      because: 'all sleds were off at 1.5 s',
    });
    expect(outcomeOf({ ...ending, status: 'collapsed', failure: 'the bus collapsed' }).kind).toBe(
      'collapsed',
    );
    const gone = [cut(1, 'sled-1'), entry(1.5, 'sled-2', 'sled-out', 'its fuse clears')];
    expect(outcomeOf({ ...ending, log: gone }).kind).toBe('collapsed');
    const shorted = [spanOf('out', 'sled-2', 'shorted', 0.5)];
    expect(outcomeOf({ ...ending, log: [cut(1, 'sled-1')], spans: shorted }).kind).toBe('collapsed');
  });

  it('has not collapsed where sleds are switched off on purpose', () => {
    const off = (time_s: number, sled: string) => entry(time_s, sled, 'sled-out', 'switched off');
    const spans = [spanOf('out', 'sled-1', 'switched off', 1), spanOf('out', 'sled-2', 'switched off', 2)];
    const log = [off(1, 'sled-1'), off(2, 'sled-2')];
    expect(outcomeOf({ ...ending, log, spans })).toMatchObject({
      kind: 'degraded',
      because: 'sled-1, sled-2 switched off to the end',
    });
  });
});
