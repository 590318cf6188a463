/** What a run records of itself, against what the scenario planned: times, units and words of its spans. */
import { describe, expect, it } from 'vitest';
import type { Result } from '../../src/engine/result.ts';
import { simulate } from '../../src/engine/simulate.ts';
import type { RecordedSpan, SpanKind } from '../../src/events/spans.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { readShipped } from '../scenario/shipped.ts';
import { type Changes, simulated } from './runs.ts';

/** A shipped scenario under changes, with things that happen added to it. */
function ran(name: string, changes: Changes, happens: readonly string[] = []): Result {
  const list = [
    ...Object.entries(changes).map(([path, value]) => ({ path, value })),
    ...happens.map((value) => ({ path: 'events.add', value })),
  ];
  const { scenario } = readShipped(`scenarios/${name}.yaml`, [], { changes: list });
  return simulate(assemble(scenario), makeDemand(scenario), { levels_V: Float64Array.of(48, 51) });
}

/** Spans of a kind, their times to the nanosecond. */
function of(result: Result, kind: SpanKind, who?: string): RecordedSpan[] {
  return result.spans
    .filter((span) => span.kind === kind && (who === undefined || span.who === who))
    .map((span) => ({ ...span, from_s: nano(span.from_s), to_s: nano(span.to_s) }));
}

const nano = (time_s: number): number => Number(time_s.toFixed(9));

const names = (spans: readonly RecordedSpan[]): string[] => [...new Set(spans.map(({ who }) => who))].sort();

describe('AC, as each shelf counts it', () => {
  const quick = { duration: '4.4 s', 'shelves.start_delay': '100 ms', 'shelves.walk_in': '0.2 s' };

  it('is lost in a brown-out though no feeder is: from the count to the walk-in, on the feeder that sags', () => {
    const result = simulated('brown-out', quick);
    const lost = of(result, 'ac-lost');
    expect(names(lost)).toEqual(['S1', 'S2', 'S3', 'S4']);
    for (const span of lost) {
      expect(span).toMatchObject({ what: 'brown-out', count: 1, open: false });
      expect(span.from_s).toBeCloseTo(3.02, 4);
      expect(span.to_s).toBeCloseTo(4.1, 3);
      const [walk] = of(result, 'walk-in', span.who);
      expect(walk).toMatchObject({ from_s: span.to_s });
      expect(walk!.to_s).toBeCloseTo(4.3, 3);
    }
    expect(of(result, 'ac-told-lost')).toMatchObject([{ who: 'AC', from_s: 3.021 }]);
    // Two sags of 70 % alter the line and lose nothing.
    expect(of(result, 'altered').map(({ who, what, amount }) => [who, what, amount])).toEqual([
      ['F1', 'ac-sag', 0.7],
      ['F1', 'ac-sag', 0.7],
      ['F1', 'ac-sag', 0.5],
    ]);
  });

  const light = { duration: '2.6 s', 'shelves.start_delay': '100 ms', 'shelves.walk_in': '1 s' };

  it('is lost on its own feeder alone, and an interruption ridden through has its true length', () => {
    const result = ran('idle', { ...light, duration: '0.6 s' }, [
      'ac-loss F2 at 0.2 s',
      'ac-return F2 at 0.203 s',
    ]);
    const lost = of(result, 'ac-lost');
    expect(names(lost)).toEqual(['S5', 'S6', 'S7', 'S8']);
    for (const { what, from_s, to_s } of lost) {
      expect([what, from_s]).toEqual(['feeder', 0.2]);
      expect(to_s).toBeCloseTo(0.203, 9);
    }
    expect(of(result, 'walk-in')).toEqual([]);
  });

  it('lost again inside a walk-in: the walk-in ends there and runs anew; the bridge between is not one span', () => {
    const result = ran('idle', light, [
      'ac-loss all at 0.1 s',
      'ac-return all at 0.2 s',
      'ac-loss all at 0.7 s',
      'ac-return all at 0.8 s',
    ]);
    for (const shelf of ['S1', 'S8']) {
      const walks = of(result, 'walk-in', shelf).map(({ from_s, to_s }) => [from_s, to_s]);
      expect(walks[0]![0]).toBeCloseTo(0.3, 3);
      expect(walks[0]![1]).toBe(0.7);
      expect(walks[1]![0]).toBeCloseTo(0.9, 3);
      expect(walks[1]![1]).toBeCloseTo(1.9, 3);
      expect(of(result, 'ac-lost', shelf)).toMatchObject([
        { from_s: 0.1, to_s: walks[0]![0] },
        { from_s: 0.7, to_s: walks[1]![0] },
      ]);
    }
  });

  it('lost for a moment inside a walk-in: the ramp goes on where it stood', () => {
    const result = ran('idle', light, [
      'ac-loss all at 0.1 s',
      'ac-return all at 0.2 s',
      'ac-loss all at 0.7 s',
      'ac-return all at 0.702 s',
    ]);
    const walks = of(result, 'walk-in', 'S3');
    expect(walks.map(({ to_s }) => to_s)[0]).toBe(0.7);
    expect(walks[1]!.from_s).toBeCloseTo(0.702, 9);
    expect(walks[0]!.held_s + walks[1]!.held_s).toBeCloseTo(1, 3);
  });

  it('does not stay lost for a shelf that trips while it waits for its walk-in', () => {
    const result = ran('idle', { ...light, duration: '0.6 s' }, [
      'ac-loss all at 0.1 s',
      'ac-return all at 0.2 s',
      'shelf-trip S3 at 0.25 s',
    ]);
    const [lost] = of(result, 'ac-lost', 'S3');
    expect(lost!.to_s).toBeCloseTo(0.25, 3);
    expect(of(result, 'walk-in', 'S3')).toEqual([]);
    expect(of(result, 'out', 'S3')).toMatchObject([{ what: 'taken out', from_s: 0.25, open: true }]);
  });
});

describe('batteries, sleds, bars and banks', () => {
  it('a battery shelf that is late carries as late as it is', () => {
    const result = simulated('battery-one-late', { duration: '0.6 s' });
    const began = (who: string): number => of(result, 'carrying', who)[0]!.from_s;
    expect(names(of(result, 'carrying'))).toEqual(['B1', 'B2', 'B3', 'B4', 'B5']);
    expect(began('B1') - began('B2')).toBeCloseTo(0.02, 4);
    expect(of(result, 'altered')).toMatchObject([
      { who: 'B1', what: 'battery-late', amount: 0.02, open: true },
    ]);
    expect(of(result, 'carrying').every(({ open }) => open)).toBe(true);
  });

  it('a sled that shorts is shorted until its fuse clears and then gone; the others are off until they restart', () => {
    const result = simulated('sled-short', { duration: '2.2 s' });
    expect(of(result, 'short')).toMatchObject([{ who: 'sled-5', from_s: 1, to_s: 1.001 }]);
    expect(of(result, 'out', 'sled-5')).toMatchObject([
      { what: 'shorted', from_s: 1, to_s: 1.001 },
      { what: 'fuse cleared', from_s: 1.001, open: true },
    ]);
    const others = of(result, 'out').filter(({ who }) => who !== 'sled-5');
    expect(others.length).toBe(15);
    for (const { what, from_s, to_s } of others) {
      expect(what).toBe('cut off');
      expect(from_s).toBeGreaterThanOrEqual(1);
      expect(to_s - from_s).toBeGreaterThan(0.9);
    }
  });

  it('a link bar that opens is out from then on, and nothing else is', () => {
    const result = simulated('link-bar-out', { duration: '6 s' });
    expect(of(result, 'out')).toMatchObject([{ who: 'LA1', what: 'opened', from_s: 5, open: true }]);
    const others = result.spans.filter(({ kind, what }) => kind !== 'out' && what !== 'slew');
    expect(others).toEqual([]);
  });

  it('a bank that shorts and burns open, a shelf that fails, one told to join: each with its word', () => {
    const result = ran('idle', { duration: '0.5 s' }, [
      'bank-out K1 at 0.1 s',
      'reverse-feed S1 to 10 A for 0.1 s at 0.1 s',
      'shelf-trip S2 at 0.1 s',
      'shelf-join S2 at 0.2 s',
      'tray-out T4 at 0.1 s',
    ]);
    expect(of(result, 'out').map(({ who, what, open }) => [who, what, open])).toEqual(
      expect.arrayContaining([
        ['K1', 'opened', true],
        ['S1', 'failed', true],
        ['S2', 'taken out', false],
        ['T4', 'taken out', true],
      ]),
    );
    expect(of(result, 'altered', 'S1')).toMatchObject([{ what: 'reverse-feed', amount: 10, open: false }]);
  });
});

describe('an event that leaves everything as it was', () => {
  it.each([
    ['a set point', 'set-point-shift S1 by 0 % at 0.1 s'],
    ['a sensor', 'sensor-shift S1 by 0 % at 0.1 s'],
    ['a charge sensor', 'charge-shift T1 by 0 % at 0.1 s'],
    ['coolant', 'coolant-loss all to 100 % at 0.1 s'],
    ['the line', 'ac-sag all to 100 % for 0.1 s at 0.1 s'],
    ['the line upward', 'ac-swell F1 to 100 % for 0.1 s at 0.1 s'],
    ['a bank', 'bank-out K1 by 0 % at 0.1 s'],
    ['a start', 'battery-late all by 0 ms at 0.1 s'],
    ['a signal', 'signal-late smoothing by 0 ms at 0.1 s'],
    ['a scale', 'signal-scaled share to 100 % at 0.1 s'],
    ['the brake', 'brake all to 100 % at 0.1 s'],
    ['a shelf that runs', 'shelf-join S1 at 0.1 s'],
    ['the brake of one', 'brake sled-1 to 100 % over 0.05 s at 0.1 s'],
    ['AC that is there', 'ac-return all at 0.1 s'],
  ])('records nothing: %s', (_, happens) => {
    const result = ran('idle', { duration: '0.3 s' }, [happens]);
    expect(result.spans).toEqual([]);
  });

  it('but one of any size, one said twice, and one that changes its mind are as many spans as there are changes', () => {
    const result = ran('idle', { duration: '0.6 s' }, [
      'set-point-shift S1 by 0.1 % at 0.1 s',
      'set-point-shift S1 by 0.1 % at 0.2 s',
      'set-point-shift S1 by 0.2 % at 0.3 s',
      'set-point-shift S1 by 0 % at 0.4 s',
    ]);
    expect(of(result, 'altered').map(({ from_s, to_s, amount }) => [from_s, to_s, amount])).toEqual([
      [0.1, 0.3, 0.001],
      [0.3, 0.4, 0.002],
    ]);
  });

  it('and a ramp is one span that says until when it moved', () => {
    const result = ran('idle', { duration: '0.6 s' }, [
      'coolant-loss S1 to 80 % over 0.2 s for 0.2 s at 0.1 s',
    ]);
    const [span, ...more] = of(result, 'altered');
    expect(more).toEqual([]);
    expect(span).toMatchObject({ who: 'S1', what: 'coolant-loss', to_s: 0.5 });
    expect(span!.amount).toBeCloseTo(0.8, 9);
    expect(span!.moved_to_s).toBeCloseTo(0.3, 6);
  });
});

describe('limits', () => {
  it('a cabinet that hunts slews: bounded in number, exact in count and time, though the log says nothing of it', () => {
    const result = simulated('single-step', { 'shelves.control_delay': '85 us', duration: '0.1 s' });
    const slews = of(result, 'at-limit').filter(({ who, what }) => what === 'slew' && who.startsWith('S'));
    const hunting = names(slews);
    expect(hunting.length).toBeGreaterThan(0);
    for (const who of hunting)
      expect(slews.filter((span) => span.who === who).length).toBeLessThanOrEqual(64);
    const worst = slews.reduce((most, span) => (span.count > most.count ? span : most));
    expect(worst.count).toBeGreaterThan(64);
    expect(worst.held_s).toBeGreaterThan(0);
    expect(worst.held_s).toBeLessThan(worst.to_s - worst.from_s);
  });

  it('trims at their clamp are told from the sample that clamps them', () => {
    const result = simulated('share-line-short', { duration: '1.5 s' });
    const trims = of(result, 'at-limit').filter(({ what }) => what === 'trim');
    const told = result.log.filter(({ what }) => what === 'trim-clamp');
    expect(trims.map(({ who, from_s }) => [who, from_s])).toEqual(
      told.map(({ who, time_s }) => [who, nano(time_s)]),
    );
    expect(trims.length).toBeGreaterThan(0);
  });

  it('the way into a converged cycle leaves nothing behind; what holds as the run begins holds from 0', () => {
    expect(simulated('pulse-train', { duration: '2 s' }).spans).toEqual([]);
    const weak = simulated('pulse-train', { duration: '2 s', 'trays.power_limit': '3 kW' });
    const trays = of(weak, 'at-limit').filter(({ what }) => what === 'power');
    expect(names(trays).length).toBe(10);
    for (const { from_s, to_s, count } of trays) {
      expect(from_s).toBeGreaterThanOrEqual(0);
      expect(to_s).toBeLessThanOrEqual(2);
      expect(count).toBe(1);
    }
  });
});
