import { describe, expect, it } from 'vitest';
import { growthOfPush } from '../../scripts/margins/growth-of-push.ts';
import { advance } from '../../src/engine/advance.ts';
import { firmwareAgenda } from '../../src/engine/firmware-agenda.ts';
import { restAt } from '../../src/linear/rest.ts';
import { CellWorkshop } from '../../src/studies/gains/cell.ts';
import { shipped } from './scenario.ts';

const load_W = 200e3;
/** Small enough to grow for a while before a clamp holds it. */
const push_V = 1e-6;

const workshop = new CellWorkshop();

/** How a small uneven push of the trims stands after `late` over how it stood after `early`. */
function trimGrowth(words: readonly string[], early_s: number, late_s: number): number {
  const cabinet = restAt(shipped('single-step', ...words), load_W, { kernel: 'fast' });
  const { trim_V } = cabinet.controls.share;
  const rest = trim_V.slice();
  trim_V[0]! += push_V;
  trim_V[1]! -= push_V;
  const agenda = firmwareAgenda(cabinet, 0);
  const { tick_s } = cabinet.network.scenario;
  const ticks = (s: number): number => Math.round(s / tick_s);
  // The largest over 0.2 s: a swing may pass through zero.
  const largest = (from_s: number): number => {
    let most = 0;
    for (let k = 0; k < 20; k++) {
      advance(cabinet, agenda, ticks(from_s + k * 0.01), ticks(from_s + (k + 1) * 0.01), null);
      most = Math.max(most, Math.abs(trim_V[0]! - rest[0]! - (trim_V[1]! - rest[1]!)));
    }
    return most;
  };
  advance(cabinet, agenda, 0, ticks(early_s), null);
  const first = largest(early_s);
  advance(cabinet, agenda, ticks(early_s + 0.2), ticks(late_s), null);
  return largest(late_s) / first;
}

/** Rate at which a small push of a current grows, from 2 ms to 9 ms after it [1/s]. */
function currentGrowth(words: readonly string[]): number {
  const cabinet = restAt(shipped('single-step', ...words), load_W, { kernel: 'fast' });
  return growthOfPush(cabinet, { push_A: 5, early_s: 2e-3, late_s: 9e-3 });
}

describe('the edge of a gains map', () => {
  it.each([
    ['20 ms', true],
    ['40 ms', false],
  ])(
    'for the share loop at τ 20 ms and latency %s is where the running cabinet has it: stable %s',
    (latency, stable) => {
      const words = [`firmware.share.latency=${latency}`, 'firmware.share.time_constant=20 ms'];
      expect(workshop.cell(shipped('single-step', ...words), load_W).stable).toBe(stable);
      const growth = trimGrowth(words, 0.1, 0.6);
      if (stable) expect(growth).toBeLessThan(0.8);
      else expect(growth).toBeGreaterThan(1.25);
    },
  );

  it.each([
    ['30 us', true],
    ['75 us', true],
    ['100 us', false],
  ])('for the voltage loop at a control delay of %s, tie open: stable %s', (delay, stable) => {
    const words = ['bars.tie.closed=false', `shelves.control_delay=${delay}`];
    const cell = workshop.cell(shipped('single-step', ...words), load_W);
    expect(cell.stable).toBe(stable);
    if (delay === '30 us') expect(cell.damping_fast_ratio).toBeGreaterThan(0.15);
    if (delay === '75 us') expect(cell.damping_fast_ratio).toBeLessThan(0.05);
    const growth = currentGrowth(words);
    if (stable) expect(growth).toBeLessThan(Math.log(0.8) / 7e-3);
    else expect(growth).toBeGreaterThan(Math.log(1.25) / 7e-3);
  });
});
