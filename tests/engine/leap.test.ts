/** Steps that pass a run of the smoothing: when they are taken, that nothing is decided twice, and that no loop hides behind them. */
import { describe, expect, it } from 'vitest';
import { advance } from '../../src/engine/advance.ts';
import { type Cabinet, ready } from '../../src/engine/cabinet.ts';
import { firmwareAgenda } from '../../src/engine/firmware-agenda.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { run } from '../../src/run.ts';
import { type Changes, shippedWith } from './runs.ts';

interface Walk {
  readonly cabinet: Cabinet;
  /** Lengths of the steps [ticks], and the smoothed load at the end of each [W]. */
  readonly lengths: number[];
  readonly smoothed_W: number[];
}

/** Runs a scenario with its ladder as `change` leaves it. */
function walk(name: string, changes: Changes, change: (cabinet: Cabinet) => void = () => {}): Walk {
  const scenario = shippedWith(name, changes);
  const cabinet = ready(assemble(scenario), makeDemand(scenario), 1);
  change(cabinet);
  const lengths: number[] = [];
  const smoothed_W: number[] = [];
  const end = Math.round(scenario.duration_s / scenario.tick_s);
  advance(cabinet, firmwareAgenda(cabinet, 0), 0, end, {
    edge: () => {},
    step: (from, to) => {
      lengths.push(to - from);
      smoothed_W.push(cabinet.controls.smoothing.smoothed_W);
      return true;
    },
  });
  return { cabinet, lengths, smoothed_W };
}

const period = 2000;
const passing = ({ lengths }: Walk): number => lengths.filter((ticks) => ticks === 2 * period).length;
const swell: Changes = {
  'load.at': '2 ms',
  'load.before': '150 kW',
  'load.after': '170 kW',
  'load.edge': '60 ms',
  duration: '80 ms',
};

describe('a step that passes a run', () => {
  it('is taken in quiet', () => {
    expect(passing(walk('single-step', swell))).toBeGreaterThan(40);
  });

  /** Takes tray 4 out when the step from here is asked for [tick]: after one that passes a run has been refused. */
  const dropsAt = 88_000;
  const drops = ({ ladder, log, controls }: Cabinet): void => {
    const next = ladder.next.bind(ladder);
    ladder.next = (left) => {
      if (log.tick === dropsAt) controls.smoothing.drop(3);
      return next(left);
    };
  };

  it.each<readonly [what: string, also: (cabinet: Cabinet) => void]>([
    ['refused every time', () => {}],
    ['also where a tray leaves between a run taken early and its turn', drops],
  ])('decides once: %s, the run is the same to the last bit as without', (_what, also) => {
    const without = walk('single-step', swell, (cabinet) => {
      cabinet.ladder.reaches = () => false;
      also(cabinet);
    });
    const refused: number[] = [];
    const refusing = walk('single-step', swell, (cabinet) => {
      const { ladder, log } = cabinet;
      const accepts = ladder.accepts.bind(ladder);
      ladder.accepts = (ticks, surprise_V) => {
        if (ticks < 2 * period) return accepts(ticks, surprise_V);
        refused.push(log.tick);
        return false;
      };
      also(cabinet);
    });
    expect(passing(without)).toBe(0);
    expect(passing(refusing)).toBe(0);
    expect(refused.length).toBeGreaterThan(30);
    expect(refused).toContain(dropsAt);
    expect(refusing.lengths).toEqual(without.lengths);
    expect(refusing.smoothed_W).toEqual(without.smoothed_W);
    expect(refusing.cabinet.stepper.x0).toEqual(without.cabinet.stepper.x0);
    expect(refusing.cabinet.network.trays.command_W).toEqual(without.cabinet.network.trays.command_W);
  });

  it('commands what the run would have, to what half way between samples can tell', () => {
    const without = walk('single-step', swell, ({ ladder }) => {
      ladder.reaches = () => false;
    });
    const { cabinet } = walk('single-step', swell);
    const { controls, network } = cabinet;
    const other = without.cabinet;
    const { smoothed_W } = controls.smoothing;
    expect(Math.abs(smoothed_W - other.controls.smoothing.smoothed_W)).toBeLessThan(2e-5 * smoothed_W);
    network.trays.command_W.forEach((command_W, k) => {
      expect(Math.abs(command_W - other.network.trays.command_W[k]!)).toBeLessThan(1e-3 * 20e3);
    });
    expect(controls.smoothing.signal.read().length).toBe(2 + 2 * network.trays.count);
  });

  it.each<readonly [what: string, scenario: string, changes: Changes]>([
    ['its sample is too young', 'single-step', { 'firmware.smoothing.latency': '0.25 ms' }],
    ['it reads what is there now', 'single-step', { 'firmware.smoothing.own_power': 'present' }],
    ['a tray is held to less than is asked of it', 'single-step', { 'trays.power_limit': '100 W' }],
  ])('is not taken where %s', (_what, scenario, changes) => {
    expect(passing(walk(scenario, { ...swell, ...changes }))).toBe(0);
  });

  it('ends with a shorter period where its sample is not taken half way', () => {
    const { lengths } = walk('single-step', {
      ...swell,
      'firmware.smoothing.period': '0.4 ms',
      'firmware.smoothing.latency': '0.4 ms',
    });
    expect(lengths.filter((ticks) => ticks === 3200).length).toBeGreaterThan(40);
    expect(Math.max(...lengths)).toBe(3200);
  });

  // Trays whose shelves answer late swing at 320 Hz, in linear terms dying by e in 0.1 s, growing by e in 40 and in 13 ms.
  it.each<readonly [string, string, Changes, string]>([
    ['0.62 ms', 'idle', { 'load.power': '200 kW', duration: '2 s' }, 'steady'],
    ['0.65 ms', 'idle', { 'load.power': '200 kW', duration: '2 s' }, 'oscillating'],
    ['0.65 ms', 'pulse-train', { duration: '1.6 s' }, 'oscillating'],
    ['0.7 ms', 'idle', { 'load.power': '200 kW', duration: '1 s' }, 'oscillating'],
  ])('hides no loop that grows: shelves that lag by %s, %s', (lag, scenario, changes, outcome) => {
    const { report } = run(shippedWith(scenario, { ...changes, 'shelves.current_lag': lag }), null);
    expect(report.outcome.kind).toBe(outcome);
    expect(report.verdict).toBe('fail');
    const finding = (id: string) => report.findings.find((one) => one.id === id)!;
    expect(finding('mode-damping').verdict).toBe('fail');
    if (outcome === 'oscillating') expect(finding('bus-ripple').verdict).toBe('fail');
  });
});
