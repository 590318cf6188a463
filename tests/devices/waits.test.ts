/** What somebody waits for: each bound by itself, and runs in which watchers are asked at every step against those in which they are not. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { stageMode } from '../../src/devices/stage/stage.ts';
import { Waits } from '../../src/devices/waits.ts';
import { simulate } from '../../src/engine/simulate.ts';
import { levelsOf } from '../../src/limits/levels.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { shippedWith } from '../engine/runs.ts';

describe('a bound', () => {
  const { stages, intakes, supplies, nodeCount, stateCount, shelfCount } = assemble(
    shippedWith('single-step'),
  );
  const waits = new Waits(stages, intakes, supplies);
  const x = new Float64Array(stateCount);
  const v = new Float64Array(nodeCount);

  /** Shelf 1 and battery shelf 0 at 50 V, 100 A and a bulk of 400 V. */
  function stand(): void {
    v.fill(50);
    x.fill(0);
    for (const k of [1, shelfCount]) x[stages.offset + k] = 100;
    x[intakes.offset + 1] = 400;
    stages.mode.fill(stageMode.linear);
    waits.clear();
  }

  it.each<readonly [string, (by: number) => void]>([
    ['of the lowest node', (by) => waits.nodeBelow(50 + by)],
    ['of a bulk, below', (by) => waits.bulkBelow(1, 400 + by)],
    ['of a bulk, above', (by) => waits.bulkAbove(1, 400 - by)],
    ['of a current, below', (by) => waits.currentBelow(1, 100 + by)],
    ['of a current, above', (by) => waits.currentAbove(1, 100 - by)],
    ['of a power, above', (by) => waits.powerAbove(1, 5000 - by)],
    ['of an output, above', (by) => waits.outputAbove(1, 50 - by)],
    ['of a battery shelf, below', (by) => waits.batteryBelow(0, 50 + by)],
  ])('%s is due beyond it, and not on it', (_, bound) => {
    stand();
    expect(waits.isDue(x, v, 50)).toBe(false);
    bound(0);
    expect(waits.isDue(x, v, 50)).toBe(false);
    bound(1e-9);
    expect(waits.isDue(x, v, 50)).toBe(true);
  });

  it('that is wider than one that stands changes nothing', () => {
    stand();
    waits.bulkBelow(1, 410);
    waits.bulkBelow(1, 390);
    expect(waits.isDue(x, v, 50)).toBe(true);
  });

  it('of a limit is due where the stage is at it', () => {
    stand();
    stages.mode[1] = stageMode.limit;
    expect(waits.isDue(x, v, 50)).toBe(false);
    waits.atLimit(1);
    expect(waits.isDue(x, v, 50)).toBe(true);
  });
});

describe('watchers', () => {
  afterEach(() => vi.restoreAllMocks());

  it.each([
    ['shelf-trip', '0.4 s'],
    ['sled-short', '1.1 s'],
    ['battery-late', '0.3 s'],
  ])('asked at every step do what they do when their bounds wake them: %s', (name, duration) => {
    const scenario = shippedWith(name, { duration });
    const run = () =>
      simulate(assemble(scenario), makeDemand(scenario), {
        levels_V: levelsOf(scenario.limits, scenario.nominal_V),
        kernel: 'plain',
      });
    const woken = run();
    vi.spyOn(Waits.prototype, 'isDue').mockReturnValue(true);
    const asked = run();
    expect(asked.counters).toEqual(woken.counters);
    expect(asked.log).toEqual(woken.log);
    expect(asked.extremes).toEqual(woken.extremes);
  });
});
