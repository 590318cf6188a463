/**
 * Sequences of rectifier shelves: each shipped scenario does what it says, its books closed. Numbers are from closed
 * forms beside each check, else from the scenario's own expectation.
 */
import { describe, expect, it } from 'vitest';
import type { Result } from '../../src/engine/result.ts';
import { simulate } from '../../src/engine/simulate.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import type { EventSpec } from '../../src/scenario/scenario.ts';
import { happens } from '../happens.ts';
import { busOf, type Changes, countOf, shippedWith, simulated } from './runs.ts';

function expectClosed({ status, audit }: Result): void {
  expect(status).toBe('ok');
  expect(Math.abs(audit.residual_ratio)).toBeLessThan(1e-6);
  expect(Math.abs(audit.residual_loss_ratio)).toBeLessThan(1e-5);
}

/** Value of a channel in the bucket that holds a time. */
function at(result: Result, channel: string, time_s: number): number {
  const { channels, edges_s, max, bucketCount } = result.recording;
  const c = channels.findIndex(({ id }) => id === channel);
  let b = 0;
  while (b < bucketCount - 1 && edges_s[b + 1]! <= time_s) b++;
  return max[c]![b]!;
}

function extreme(result: Result, channel: string) {
  return result.extremes.find((e) => e.channel === channel)!;
}

function timesOf(result: Result, what: string, who: string): number[] {
  return result.log.filter((e) => e.what === what && e.who === who).map((e) => e.time_s);
}

function runWith(name: string, changes: Changes, events: readonly EventSpec[]): Result {
  const scenario = { ...shippedWith(name, changes), events };
  return simulate(assemble(scenario), makeDemand(scenario), { levels_V: Float64Array.of(48) });
}

describe('modules that fail one by one', () => {
  const result = simulated('modules-out');

  it('leave the shelf its part by what still works', () => {
    expectClosed(result);
    // 200 kW and 1 kW of bars over 39, 38, 37 and 36 modules instead of 40; trims take some tenths of a second.
    [0, 1, 2, 3].forEach((n) => {
      const share = at(result, 'S3.current_A', 0.95 + 0.5 * n) / at(result, 'S6.current_A', 0.95 + 0.5 * n);
      expect(Math.abs(share - (4 - n) / 5)).toBeLessThan(0.03);
    });
    expect(countOf(result, 'battery-start')).toBe(0);
  });

  it('stop it with the last, and let it join softly when they are back', () => {
    expect(at(result, 'S3.current_A', 3)).toBeLessThan(1e-3);
    expect(countOf(result, 'dc-restart')).toBe(1);
    expect(timesOf(result, 'soft-start', 'S3')).toEqual([3.55]);
    expect(Math.abs(at(result, 'S3.current_A', 5.9) / at(result, 'S6.current_A', 5.9) - 1)).toBeLessThan(
      0.03,
    );
  });

  it('take ½ C_b v² of their bulk out of the books each', () => {
    const one = simulated('modules-out', { duration: '0.9 s' });
    const taken = one.audit.rows.filter(({ cause }) => cause === 'taken out');
    expect(taken.map(({ owner }) => owner)).toEqual(['S3']);
    expect(Math.abs(taken[0]!.energy_J / ((4.5e-3 * 420 * 420) / 2) - 1)).toBeLessThan(1e-3);
    expectClosed(one);
  });
});

describe('shelves of two ratings', () => {
  const result = simulated('mixed-shelves');

  it('carry their parts by rating, and are told so by the share error', () => {
    expectClosed(result);
    for (const small of ['S4', 'S8']) {
      const ratio = at(result, `${small}.current_A`, 1.9) / at(result, 'S1.current_A', 1.9);
      expect(Math.abs(ratio - 2 / 3)).toBeLessThan(0.03);
    }
    expect(result.share.steady!.ratio).toBeLessThan(0.05);
    expect(countOf(result, 'battery-start')).toBe(0);
  });

  it('do so again when the small one has tripped and joined', () => {
    expect(at(result, 'S4.current_A', 2.9)).toBeLessThan(1e-3);
    const ratio = at(result, 'S4.current_A', 4.9) / at(result, 'S1.current_A', 4.9);
    expect(Math.abs(ratio - 2 / 3)).toBeLessThan(0.03);
  });
});

describe('a soft start', () => {
  it('lets the current rise along its ramp, and the share leaves the shelf out until it ends', () => {
    const join: Changes = { 'events.1.unit': 'S4', 'events.add': 'shelf-join S4 at 0.2 s' };
    const result = simulated('shelf-trip', { ...join, duration: '0.8 s' });
    expectClosed(result);
    // 864 A in 50 ms; at 25 ms the limit stands at 432 A.
    expect(at(result, 'S4.current_A', 0.225)).toBeGreaterThan(0.9 * 432);
    expect(at(result, 'S4.current_A', 0.225)).toBeLessThan(1.05 * 432);
    const trims = [0.205, 0.245].map((t) => at(result, 'S4.trim_V', t));
    expect(trims[0]).toBe(trims[1]);
    expect(at(result, 'S4.trim_V', 0.79)).not.toBe(trims[0]);
  });

  it('without its ramp is a jump', () => {
    const join: Changes = { 'events.add': 'shelf-join S3 at 0.2 s', duration: '0.3 s' };
    const abrupt = simulated('shelf-trip', { ...join, 'shelves.soft_start': '0 s' });
    const soft = simulated('shelf-trip', join);
    expect(countOf(abrupt, 'soft-start')).toBe(0);
    // 3 ms of the ramp to 864 A in 50 ms let 52 A through; without it the voltage loop alone sets the pace.
    expect(at(soft, 'S3.current_A', 0.203)).toBeLessThan(1.1 * 52);
    expect(at(abrupt, 'S3.current_A', 0.203)).toBeGreaterThan(3 * 52);
  });
});

describe('an overload that is held', () => {
  const result = simulated('overload-hiccup', { duration: '8 s' });

  it('is held to 108 % after its time, and trips the shelves one after the other', () => {
    expectClosed(result);
    const held = result.log.filter(({ detail }) => detail.includes('held to 108 %'));
    expect(new Set(held.slice(0, 6).map(({ who }) => who)).size).toBe(6);
    // The trip comes at 0.5 s; a shelf above 108 % before it, and for 0.1 s since.
    expect(held[0]!.time_s).toBeGreaterThan(0.6);
    expect(held[0]!.time_s).toBeLessThan(0.61);
    const trips = result.log.filter(({ what }) => what === 'shelf-trip');
    expect(trips.length).toBe(6);
    expect(trips[0]!.detail).toContain('overload: its accumulator is full');
    // 108.0 to 110.5 % of rated power at 49.6 V: 1/(y² − 1) with y from 1.09 to 1.11 is 5.3 to 4.3 s.
    expect(trips[0]!.time_s - 0.5).toBeGreaterThan(4.3);
    expect(trips[0]!.time_s - 0.5).toBeLessThan(5.3);
  });

  it('each tries again softly after its rest, while batteries carry', () => {
    for (const shelf of ['S1', 'S2', 'S4', 'S5', 'S6', 'S8']) {
      const [trip] = timesOf(result, 'shelf-trip', shelf);
      const [again] = timesOf(result, 'dc-restart', shelf);
      expect(again! - trip!).toBeCloseTo(1, 9);
    }
    expect(countOf(result, 'battery-carry')).toBeGreaterThanOrEqual(5);
    expect(countOf(result, 'sled-cut-off')).toBe(0);
  });

  it('latches after its tries', () => {
    const latched = simulated('overload-hiccup', {
      'shelves.overload_time': '0.2 s',
      'shelves.hiccup_retries': '1',
      'shelves.hiccup_off': '0.2 s',
      duration: '5 s',
    });
    expect(countOf(latched, 'shelf-latch')).toBeGreaterThan(0);
    const first = latched.log.find(({ what }) => what === 'shelf-latch')!;
    expect(first.detail).toContain('1 tries were not enough; latched off');
  });
});

describe('the short-term current limit', () => {
  it('holds for its allowance, then falls to the sustained one', () => {
    // Four shelves out at once leave the other four 220 kW, 55 kW each, and no battery has anything to give.
    const out = ['S1', 'S3', 'S5', 'S7'].map((unit) => happens(0.1, 'shelf-trip', unit));
    const changes: Changes = {
      'shelves.peak_current_limit': '160 %',
      'batteries.charge': '5 %',
      duration: '0.2 s',
    };
    const result = runWith('shelf-trip', changes, out);
    expect(extreme(result, 'S2.current_A').max).toBeGreaterThan(1.55 * 720);
    const spent = timesOf(result, 'peak-spent', 'S2')[0]!;
    expect(spent).toBeGreaterThan(0.11);
    expect(spent).toBeLessThan(0.113);
    expect(at(result, 'S2.current_A', 0.13)).toBeLessThan(1.21 * 720);
    const without = runWith('shelf-trip', { 'batteries.charge': '5 %', duration: '0.2 s' }, out);
    expect(extreme(without, 'S2.current_A').max).toBeLessThan(1.21 * 720);
    // The bus collapses either way, to the same threshold; with the allowance it holds for longer.
    expect(result.failure!.time_s).toBeGreaterThan(without.failure!.time_s + 1e-3);
  });
});

describe('latches', () => {
  it('a shelf that lifts the bus above its over-voltage latches off, and others do not', () => {
    // Set to 12 % above: 56.3 V at no load, and the trim of ±1 V cannot bring it down.
    const result = runWith('idle', { 'shelves.over_voltage': '105 %', duration: '0.3 s' }, [
      { ...happens(0.1, 'set-point-shift', 'S2'), amount: 0.12 },
    ]);
    expect(countOf(result, 'shelf-latch')).toBe(1);
    const latch = result.log.find(({ what }) => what === 'shelf-latch')!;
    expect(latch.who).toBe('S2');
    expect(latch.detail).toMatch(/^over-voltage: 5\d\.\d V at its output; latched off$/);
    expect(at(result, 'S2.current_A', 0.29)).toBe(0);
    expect(result.status).toBe('ok');
  });

  it('shelves that feed a short stop after their time, to try again', () => {
    // All eight at 120 % and ten trays at 420 A hold 11.1 kA at most against 3.4 mΩ, contact included: 37.8 V, below
    // the 40 V of under-voltage.
    const result = runWith('idle', { duration: '0.4 s', 'batteries.charge': '5 %' }, [
      { ...happens(0.1, 'sled-short', 'sled-1'), amount: 3e-3, for_s: 0.2 },
    ]);
    expect(countOf(result, 'shelf-trip')).toBe(8);
    const trip = result.log.find(({ what }) => what === 'shelf-trip')!;
    expect(trip.detail).toMatch(
      /^under-voltage: 3\d\.\d V at its output; stops, tries again in 1 s \(1 of 5\)$/,
    );
    expect(trip.time_s).toBeGreaterThan(0.12);
    expect(trip.time_s).toBeLessThan(0.13);
    expect(result.failure!.cause).toContain('(under-voltage: 3');
  });
});

describe('when every shelf is gone', () => {
  const all = [1, 2, 3, 4, 5, 6, 7, 8].map((n) => happens(0.1 + n * 1e-3, 'shelf-trip', `S${n}`));

  it('under load the bus collapses, and who was out is named with when and why', () => {
    const result = runWith('shelf-trip', { duration: '3 s', 'batteries.charge': '5 %' }, all);
    expect(result.status).toBe('collapsed');
    expect(result.failure!.cause).toMatch(
      /^the bus collapsed: sled-\d+ at 2\d\.\d+ V; out: S1 from 0\.101 s \(tripped\)/,
    );
  });

  it('with next to no load nothing holds the bus either, and the run ends there', () => {
    const result = runWith(
      'idle',
      { duration: '3 s', 'batteries.charge': '5 %', 'load.power': '0.1 kW' },
      all,
    );
    expect(result.status).toBe('collapsed');
    expect(result.failure!.cause).toContain('S8 from 0.108 s (tripped)');
    expect(result.recording.edges_s.at(-1)!).toBeLessThan(1);
  });

  it('batteries that carry keep it up', () => {
    const result = runWith('idle', { duration: '1 s' }, all);
    expect(result.status).toBe('ok');
    expect(countOf(result, 'battery-carry')).toBe(5);
    expect(countOf(result, 'no-source')).toBe(0);
  });
});

describe('a line that sags', () => {
  const result = simulated('brown-out', { duration: '5 s' });

  it('to 70 % is ridden through on the input stage alone; to 50 % it counts as lost', () => {
    expectClosed(result);
    const brown = result.log.filter(({ what }) => what === 'brown-out');
    expect(brown.slice(0, 4).map(({ who }) => who)).toEqual(['S1', 'S2', 'S3', 'S4']);
    expect(brown[0]!.time_s).toBeCloseTo(3.02, 9);
    expect(result.log.filter(({ time_s, what }) => time_s < 3 && what !== 'event')).toEqual([]);
  });

  it('is told to trays and batteries after the latency of the signal, which carry', () => {
    const told = timesOf(result, 'ac-signal', 'AC');
    expect(told[0]).toBeCloseTo(3.021, 9);
    expect(told[1]).toBeCloseTo(4.001, 9);
    expect(countOf(result, 'battery-carry')).toBe(5);
    expect(busOf(result).min).toBeGreaterThan(49);
  });

  it('draws more line current meanwhile: the same power at 70 % of the voltage', () => {
    const normal = at(result, 'total.line_current_A', 0.4);
    const sagging = at(result, 'total.line_current_A', 0.9);
    // One feeder of two.
    expect(Math.abs(sagging / normal - (1 + 1 / 0.7) / 2)).toBeLessThan(0.02);
  });
});

describe('AC lost again during walk-in', () => {
  // Sooner and faster than shipped.
  const quick: Changes = {
    'events.1.at': '0.1 s',
    'events.2.at': '0.5 s',
    'shelves.start_delay': '0.1 s',
    'shelves.walk_in': '1 s',
    'firmware.handover.return_time': '0.2 s',
    'firmware.handover.ramp': '0.5 s',
    'firmware.smoothing.hold_after_return': '0.5 s',
  };

  it('keeps the batteries on, begins the walk-in anew and hands back once', () => {
    const result = simulated('ac-lost-twice', {
      ...quick,
      'events.3.at': '1 s',
      'events.4.at': '1.4 s',
      duration: '4.5 s',
    });
    expectClosed(result);
    expect(countOf(result, 'battery-hand-back')).toBe(5);
    expect(countOf(result, 'battery-sleep')).toBe(5);
    expect(countOf(result, 'dc-stop')).toBe(16);
    expect(result.log.filter(({ detail }) => detail === 'walk-in begins').length).toBe(16);
    expect(result.log.filter(({ detail }) => detail === 'walk-in ends').length).toBe(8);
    // The battery shelves' own trigger level: they hold it at gains that bear their delay.
    expect(busOf(result).min).toBeGreaterThan(48.5);
  });

  it.each([
    ['waits', '0.55 s'],
    ['ramps', '1 s'],
  ])('for less than the detection time goes on where it stood while it %s', (_, when) => {
    const result = simulated('ac-lost-twice', {
      ...quick,
      'events.3.at': when,
      'events.4.at': `${Number.parseFloat(when) + 0.002} s`,
      duration: '2.5 s',
    });
    expectClosed(result);
    const begins = result.log.filter(({ detail }) => detail === 'walk-in begins');
    expect(begins.length).toBe(8);
    const ends = result.log.filter(({ detail }) => detail === 'walk-in ends');
    expect(ends.length).toBe(8);
    // 1 s of ramp, and the 2 ms for which it stood.
    const pause = when === '1 s' ? 2e-3 : 0;
    expect(Math.abs(ends[0]!.time_s - begins[0]!.time_s - 1 - pause)).toBeLessThan(2e-4);
  });
});

describe('a shelf fed backwards', () => {
  it('is a load of what it draws until its fuse clears, and its reversal is told', () => {
    const result = simulated('reverse-feed', { duration: '1.5 s' });
    expectClosed(result);
    expect(extreme(result, 'S3.current_A').min).toBeCloseTo(-300, 3);
    expect(at(result, 'S3.current_A', 1.4)).toBeCloseTo(0, 6);
    expect(countOf(result, 'current-reversal')).toBe(1);
    expect(countOf(result, 'battery-start')).toBe(0);
    // What it drew is lost in it: 300 A at about 49.5 V for 0.2 s, beside its losses of the first half second.
    const lost = result.audit.rows.find(
      ({ owner, cause }) => owner === 'S3' && cause === 'DC stage',
    )!.energy_J;
    expect(lost).toBeGreaterThan(300 * 49 * 0.2);
    expect(lost).toBeLessThan(300 * 50 * 0.2 + 0.5 * 600);
  });
});

describe('coolant lost at one section', () => {
  const result = runWith(
    'modules-out',
    { duration: '8 s' },
    ['S1', 'S2', 'S3', 'S4'].map((shelf) => ({
      ...happens(0.5, 'coolant-loss', shelf),
      amount: 0.5,
      over_s: 2,
      for_s: 3,
    })),
  );

  it('moves the load to the other section, and back when it is cool again', () => {
    expectClosed(result);
    const of = (shelf: string, time_s: number): number => at(result, `${shelf}.current_A`, time_s);
    // Half of 36 kW at about 49.9 V.
    for (const shelf of ['S1', 'S2', 'S3', 'S4']) expect(Math.abs(of(shelf, 5) / 361 - 1)).toBeLessThan(0.01);
    expect(of('S6', 5)).toBeGreaterThan(600);
    expect(Math.abs(of('S1', 7.9) / of('S6', 7.9) - 1)).toBeLessThan(0.05);
    expect(countOf(result, 'battery-start')).toBe(0);
  });
});

describe('a set point that is wrong', () => {
  it('makes its shelf hog until the share has trimmed it', () => {
    const result = simulated('shelf-trip', {
      'events.1.what': 'shelf-join',
      'load.power': '120 kW',
      'events.add': 'set-point-shift S3 at 0.2 s by 0.5 % for 1 s',
      duration: '2.4 s',
    });
    expectClosed(result);
    expect(extreme(result, 'S3.current_A').max).toBeGreaterThan(1.3 * at(result, 'S3.current_A', 0.1));
    expect(Math.abs(at(result, 'S3.current_A', 1.1) / at(result, 'S6.current_A', 1.1) - 1)).toBeLessThan(0.1);
    // 0.5 % of 50.3 V taken back by the trim.
    expect(at(result, 'S3.trim_V', 1.1) - at(result, 'S3.trim_V', 0.1)).toBeLessThan(-0.2);
  });

  it('by all of the droop drives its shelf to its limit, and the share brings it off under a standing load', () => {
    const result = simulated('shelf-trip', {
      'events.1.what': 'shelf-join',
      'load.power': '200 kW',
      'events.add': 'set-point-shift S3 at 0.2 s by 1 %',
      duration: '2 s',
    });
    expectClosed(result);
    const [on] = timesOf(result, 'limit-on', 'S3');
    const [off] = timesOf(result, 'limit-off', 'S3');
    expect(on! - 0.2).toBeLessThan(0.02);
    // τ_sh of share takes the excess of half of rated down within tenths of a second.
    expect(off! - on!).toBeLessThan(0.3);
    expect(Math.abs(at(result, 'S3.current_A', 1.9) / at(result, 'S6.current_A', 1.9) - 1)).toBeLessThan(0.1);
    // 1 % of 50.3 V.
    expect(at(result, 'S3.trim_V', 1.9) - at(result, 'S3.trim_V', 0.1)).toBeLessThan(-0.4);
  });
});

describe('droop by finite gain', () => {
  it('shares by 1/K_p where there is neither integrator nor droop', () => {
    const result = simulated('shelf-trip', {
      'shelves.droop': '0 Ω',
      'shelves.integral_gain': '0 A/(V s)',
      // 3.6 mΩ; with 1440 A/V, the slope of the shipped droop, 30 µs of delay would not be stable.
      'shelves.proportional_gain': '276 A/V',
      'load.power': '100 kW',
      'shelves.set_point_offset': '0 %',
      'firmware.share.trim_limit': '1 µV',
      duration: '0.5 s',
    });
    expectClosed(result);
    // At rest every shelf sits on V_set − i/K_p at its own node.
    for (const shelf of ['A.S1', 'B.S6', 'B.S8']) {
      const id = shelf.slice(2);
      const wanted = 50.25 - at(result, `${id}.current_A`, 0.49) / 276;
      expect(Math.abs(at(result, `${shelf}.voltage_V`, 0.49) - wanted)).toBeLessThan(2e-3);
    }
  });
});
