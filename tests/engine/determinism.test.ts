/**
 * The same bits from the same input, mirror symmetry, and no allocation per step.
 *
 * Mirror tolerance: 1e-9 relative. The two halves are equal but for the order in which sums are taken, which
 * differs in the last bits; nothing amplifies them on a stable cabinet.
 * Heap tolerances: V8 boxes a number that a call hands on, 16 B each, and a step makes three or four of them; the
 * smallest array a step could make, one value per stage, is 200 B. So garbage below 100 B a step means none.
 * What is kept must not grow with steps at all: 2 B a step is what logs and code leave.
 */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { advance } from '../../src/engine/advance.ts';
import { ready } from '../../src/engine/cabinet.ts';
import { firmwareAgenda } from '../../src/engine/firmware-agenda.ts';
import type { Result } from '../../src/engine/result.ts';
import { Watch } from '../../src/engine/watch.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { shippedWith, simulated } from './runs.ts';

/** Everything a run gives, to the bit. */
function fingerprint(result: Result): string {
  const hash = createHash('sha256');
  const { edges_s, min, max } = result.recording;
  for (const column of [edges_s, ...min, ...max]) {
    hash.update(new Uint8Array(column.buffer, column.byteOffset, column.byteLength));
  }
  for (const { samples } of result.streams) hash.update(new Uint8Array(samples.buffer));
  const { extremes, meanSquares, audit, log, counters } = result;
  hash.update(JSON.stringify({ extremes, meanSquares, audit, log, counters }));
  return hash.digest('hex');
}

describe('determinism', () => {
  it.each([
    ['pulse-train', { duration: '1.6 s' }],
    ['ac-loss-and-return', { 'events.1.at': '10 ms', 'events.2.at': '0.3 s', duration: '0.5 s' }],
  ] as const)('%s gives the same bits twice', (name, changes) => {
    const first = fingerprint(simulated(name, changes));
    expect(fingerprint(simulated(name, changes))).toBe(first);
  });

  it('another load gives other bits', () => {
    const changes = { duration: '20 ms', 'load.at': '5 ms' };
    const first = fingerprint(simulated('single-step', changes));
    expect(fingerprint(simulated('single-step', { ...changes, 'load.after': '240.001 kW' }))).not.toBe(first);
  });
});

describe('mirror', () => {
  it('equal sections answer equally to 1e-9', () => {
    const scenario = shippedWith('mirror', { 'load.period': '0.4 s', duration: '0.4 s', start: 'settled' });
    const cabinet = ready(assemble(scenario), makeDemand(scenario), 1);
    const { network, stepper } = cabinet;
    const { nodeOf, nodes } = network.topology;
    const [a, b] = scenario.sections;
    const pairs = [
      ...a!.order.map((id, place) => [nodeOf.get(id)!, nodeOf.get(b!.order[place]!)!] as const),
      ...scenario.sleds.map(
        ({ id }, k) =>
          [nodeOf.get(id)!, nodeOf.get(scenario.sleds[scenario.sleds.length - 1 - k]!.id)!] as const,
      ),
    ];
    let worst = 0;
    let moved = 0;
    const start = stepper.v0.slice();
    advance(cabinet, firmwareAgenda(cabinet, 0), 0, Math.round(0.4 / scenario.tick_s), {
      edge() {},
      step() {
        const { v1 } = stepper;
        for (const [m, n] of pairs) {
          worst = Math.max(worst, Math.abs(v1[m]! - v1[n]!) / v1[m]!);
          moved = Math.max(moved, Math.abs(v1[m]! - start[m]!));
        }
        return true;
      },
    });
    expect(nodes.length).toBeGreaterThan(pairs.length);
    expect(moved).toBeGreaterThan(0.1);
    expect(worst).toBeLessThan(1e-9);
  });
});

describe('allocation', () => {
  const gc = globalThis.gc;
  if (gc === undefined) throw new Error('these tests need --expose-gc, see tests/vitest.config.ts');

  it('a step makes no arrays or objects: no garbage but a few boxed numbers', () => {
    const scenario = shippedWith('idle', { 'load.power': '200 kW' });
    const { stepper } = ready(assemble(scenario), makeDemand(scenario), 1);
    const take = (from: number, count: number): void => {
      for (let k = 0; k < count; k++) {
        stepper.take((from + k) * 200, 200);
        stepper.accept();
      }
    };
    take(0, 20_000);
    const garbage = [20_000, 25_000, 30_000].map((from) => {
      gc();
      const heap = process.memoryUsage().heapUsed;
      take(from, 5_000);
      // Not collected before the second reading: garbage counts.
      return (process.memoryUsage().heapUsed - heap) / 5_000;
    });
    // Of three stretches the least: what is compiled once in a while falls into one of them, what a step makes into all.
    expect(Math.min(...garbage)).toBeLessThan(100);
  });

  it('a run with its meters keeps nothing per step', () => {
    // Pulses so short that the close-ups of the fifty worst edges are full before the first reading.
    const pulses = { start: 'settled', duration: '48 s', 'load.period': '0.2 s' };
    const scenario = shippedWith('pulse-train', pulses);
    const cabinet = ready(assemble(scenario), makeDemand(scenario), 1);
    const ticks = (seconds: number): number => Math.round(seconds / scenario.tick_s);
    const watch = new Watch(cabinet, {
      from: 0,
      to: ticks(48),
      end: ticks(48),
      levels_V: Float64Array.of(48, 51),
      onProgress: () => {},
      shouldStop: () => false,
    });
    const agenda = firmwareAgenda(cabinet, 0);
    // Warm up: code compiled, rungs prepared, columns grown.
    advance(cabinet, agenda, 0, ticks(22.4), watch);
    // Twice: one collection may end another that was under way, and leaves what was dropped meanwhile.
    const held_B = (): number => {
      gc();
      gc();
      return process.memoryUsage().heapUsed;
    };
    const keptOver = (from_s: number, to_s: number): number => {
      const before = held_B();
      const steps = cabinet.steps;
      advance(cabinet, agenda, ticks(from_s), ticks(to_s), watch);
      expect(cabinet.steps - steps).toBeGreaterThan(20_000);
      return (held_B() - before) / (cabinet.steps - steps);
    };
    // What is compiled late is kept once; what a step keeps, in every stretch.
    const kept = [keptOver(22.4, 30.4), keptOver(30.4, 38.4), keptOver(38.4, 46.4)];
    expect(Math.min(...kept), kept.join(' B, ')).toBeLessThan(2);
  });
});
