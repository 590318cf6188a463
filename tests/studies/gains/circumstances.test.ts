/** What acceptable points of a map must also be acceptable in: of a bench, against the modes of the same state. */
import { describe, expect, it } from 'vitest';
import { isWeak } from '../../../src/studies/damping.ts';
import { lacks, usualAcceptance } from '../../../src/studies/gains/accept.ts';
import { CellWorkshop } from '../../../src/studies/gains/cell.ts';
import { gains } from '../../../src/studies/gains/gains.ts';
import { planGains } from '../../../src/studies/gains/plan.ts';
import { respond } from '../../../src/studies/response/respond.ts';
import { contextHere } from '../here.ts';

const { read, run } = contextHere();
const scenario = 'scenarios/bench-step.yaml';
const planned = (loads: string, load_W = 12e3) =>
  planGains(
    {
      ...{ scenario, changes: [], load_W, samples: 0, seed: 1, over: { loads }, confirm: false },
      x: 'shelves.proportional_gain=200 A/V to 400 A/V in 4',
      y: 'shelves.control_delay=20 us to 40 us in 2',
      accept: ['damping=0.222', 'fast_damping=0.1'],
    },
    read,
  );

describe('a point of a map', () => {
  it.each([
    ['0.5 ms', 1000, 0.2853, null],
    ['0.625 ms', 800, 0.2194, /^damping below 0.3 under 1 kHz/],
  ] as const)(
    'has the mode that alternates from sample to sample of %s, as `response` has it',
    (period, at_Hz, damping, said) => {
      const changes = [
        { path: 'shelves.proportional_gain', value: '560 A/V' },
        { path: 'shelves.control_delay', value: '16 us' },
        { path: 'firmware.smoothing.period', value: period },
      ];
      const changed = read({ scenario, changes }).scenario;
      const found = new CellWorkshop().cell(changed, 12e3);
      const { modes } = respond(changed, { load_W: 12e3, points: 3 });
      const alternating = modes.find(({ frequency_Hz }) => Math.abs(frequency_Hz / at_Hz - 1) < 1e-6)!;
      expect(alternating.damping_ratio).toBeCloseTo(damping, 3);
      const least = (low: number, high: number): number =>
        Math.min(
          ...modes.flatMap((mode) =>
            mode.frequency_Hz > low && mode.frequency_Hz < high * (1 - 1e-9) ? [mode.damping_ratio] : [],
          ),
        );
      expect(found.damping_ratio).toBeCloseTo(least(0, 1e3), 4);
      expect(found.damping_fast_ratio).toBeCloseTo(least(1e3 * (1 - 2e-9), 1e4), 4);
      expect(isWeak(alternating)).toBe(said !== null);
      const why = lacks(found, usualAcceptance);
      if (said === null) expect(why).toBeNull();
      else expect(why).toMatch(said);
    },
  );
});

describe('circumstances of a map', () => {
  it('are loads by states, and parts; the map’s own is none, and what settles nowhere is told', () => {
    const { circumstances, over } = planned('6 kW | 12 kW');
    const words = circumstances.map((one) => one.words);
    expect(words).toContain('6 kW, as built');
    expect(words).toContain('12 kW, tray-out T1');
    expect(words).toContain('parts end-of-life, hot');
    expect(words).not.toContain('12 kW, as built');
    // The only shelf: without it nothing carries the load.
    expect(words.join()).not.toContain('shelf-trip');
    expect(over!.not_asked.map((one) => one.words)).toContain('6 kW, shelf-trip S1');
  });

  it('take points away, each named with what it fails in, and what is shown of the rest is the worst', async () => {
    const plan = planned('12 kW', 6e3);
    const report = await gains.carryOut(plan, run);
    const narrow = report.cells.filter(({ fails_in }) => fails_in !== null);
    expect(narrow.length).toBeGreaterThan(0);
    expect(report.cells.filter(({ lacks }) => lacks === null).length).toBeGreaterThan(0);
    const [one] = narrow;
    expect(one!.lacks).toContain(`(${one!.fails_in})`);
    // The cabinet in that circumstance, by itself, lacks what is said.
    const there = plan.circumstances.find(({ words }) => words === one!.fails_in)!;
    const [a, b] = report.axes;
    const at = [
      { path: a.path, value: a.values[one!.x]! },
      { path: b.path, value: b.values[one!.y]! },
    ];
    const own = there.changes.length - there.state_count;
    const changes = [...there.changes.slice(0, own), ...at, ...there.changes.slice(own)];
    const { load_W, state_count } = there;
    const { modes } = respond(read({ scenario, changes }).scenario, { load_W, state_count, points: 3 });
    const least = Math.min(
      ...modes.flatMap((mode) =>
        mode.frequency_Hz > 0 && mode.frequency_Hz < 1e3 ? [mode.damping_ratio] : [],
      ),
    );
    expect(least).toBeLessThan(0.222);
    const cell = new CellWorkshop().cell(read({ scenario, changes }).scenario, load_W, state_count);
    expect(cell.damping_ratio).toBeCloseTo(least, 4);
  });
});
