/**
 * Sampled voltage loops in the linear model of a cabinet of one shelf: the phase that sampling takes in closed form, 360° f
 * (T_c + T/2) (K. J. Åström, B. Wittenmark, Computer-Controlled Systems, chapter on the approximation of a hold by a delay; from
 * memory), the edge of stability against the growth of a push in time, and curves by hold and delay against the exact ones.
 */
import { describe, expect, it } from 'vitest';
import { growthOfPush } from '../../scripts/margins/growth-of-push.ts';
import { scaledBy } from '../../scripts/margins/points.ts';
import { angle, magnitude, over } from '../../src/linear/complex.ts';
import { Curves } from '../../src/linear/curves.ts';
import { DecidingModes } from '../../src/linear/deciding-modes.ts';
import { modesOf } from '../../src/linear/modes.ts';
import { restAt } from '../../src/linear/rest.ts';
import { innerTasks } from '../../src/linear/sampled.ts';
import type { ShelfValues } from '../../src/scenario/parameters/shelf.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { placesOf } from '../../src/studies/response/places.ts';
import { respond } from '../../src/studies/response/respond.ts';
import { sampledVoltageLoops } from '../../src/studies/response/sampled-loops.ts';
import { voltageLoops } from '../../src/studies/response/voltage-loop.ts';
import { smallCabinet } from '../engine/small-cabinet.ts';

const load_W = 20e3;
const small = smallCabinet({
  trays: 1,
  banks: 0,
  batteries: 0,
  sleds: 1,
  load: `{ kind: constant, power: 20 kW }`,
  duration: '6 ms',
  events: ['at: 5.9 ms, what: tray-out, unit: T1'],
});
const withLoop = (values: Partial<ShelfValues>): Scenario => ({
  ...small,
  shelves: small.shelves.map((shelf) => ({ ...shelf, values: { ...shelf.values, ...values } })),
  // Short hyper-periods.
  firmware: {
    ...small.firmware,
    share: { ...small.firmware.share, period_s: 1e-3, latency_s: 1e-3 },
  },
});
const placesAt = (scenario: Scenario) => placesOf(restAt(scenario, load_W), [0], null);

describe('a sampled loop', () => {
  const own = placesAt(withLoop({ control_delay_s: 0 }));
  const curves = new Curves(own.system, false);
  const [single] = voltageLoops(own, (f) => curves.at(f, own.setPoint)).single;

  it.each([
    [20e-6, 10e-6],
    [50e-6, 25e-6],
    [50e-6, 50e-6],
  ])(
    'of %s s, computed for %s s, lags the continuous one by 360° f (T_c + T/2)',
    (loop_period_s, loop_latency_s) => {
      const [loop] = sampledVoltageLoops(placesAt(withLoop({ loop_period_s, loop_latency_s })));
      for (const f of [500, 1000, 2000]) {
        const lost = over(loop!.at(f)[0]![0]!, single!(f)[0]![0]!);
        const rad = 2 * Math.PI * f * (loop_latency_s + loop_period_s / 2);
        // The current is sampled too, and the droop it makes lags with it: a twentieth.
        expect(Math.abs(-angle(lost) / rad - 1)).toBeLessThan(0.05);
        expect(magnitude(lost)).toBeGreaterThan(0.95);
        expect(magnitude(lost)).toBeLessThan(1.05);
      }
    },
  );

  it.each([
    ['swings', 50e-6, 25e-6, 25e-3],
    ['alternates at half its rate', 80e-6, 0, 15e-3],
  ])(
    'that %s begins to grow in time where its margin says, within 2 %',
    (_, loop_period_s, loop_latency_s, late_s) => {
      const scenario = withLoop({ loop_period_s, loop_latency_s });
      const { loops } = respond(scenario, { load_W });
      const { gain_margin_dB, phase_crossover_Hz } = loops.find(({ name }) => name === 'voltage loop of S1')!;
      if (loop_latency_s === 0) expect(phase_crossover_Hz).toBeCloseTo(0.5 / loop_period_s, 6);
      const grows = (factor: number): number =>
        growthOfPush(
          restAt(scaledBy(scenario, 10 ** (gain_margin_dB! / 20) * factor, null), load_W, { kernel: 'fast' }),
          { push_A: 0.01, early_s: 5e-3, late_s },
        );
      expect(grows(0.98)).toBeLessThan(0);
      expect(grows(1.02)).toBeGreaterThan(0);
    },
  );
});

describe('beside slower tasks', () => {
  const places = placesAt(withLoop({ loop_period_s: 50e-6, loop_latency_s: 20e-6 }));
  const { system } = places;

  it('curves by hold and delay are within 0.1 dB of the exact ones up to 1 kHz, and within 1 dB at a quarter of its rate', () => {
    const exact = new Curves({ ...system, tasks: system.tasks.map((task) => ({ ...task, isInner: false })) });
    const curves = new Curves(system);
    for (const [f, most_dB] of [
      [20, 0.1],
      [300, 0.1],
      [1000, 0.1],
      [5000, 1],
    ] as const) {
      for (const drive of [places.current(0), places.setPoints, places.load]) {
        const [a, b] = [curves, exact].map((of) => of.at(f, [drive])[0]!.read(places.voltage(0)));
        expect(
          Math.abs(20 * Math.log10(magnitude(a!) / magnitude(b!))),
          `${drive.name} at ${f} Hz`,
        ).toBeLessThan(most_dB);
      }
    }
  });

  it('its modes are those of its own map, and the search for those that decide finds the same', () => {
    const modes = modesOf(system);
    const inner = modesOf({ ...system, tasks: innerTasks(system) });
    const fast = modes.filter(({ frequency_Hz }) => frequency_Hz > 1200);
    expect(fast.length).toBeGreaterThan(0);
    for (const mode of fast) {
      expect(
        Math.min(
          ...inner.map((one) =>
            Math.hypot(one.real_per_s - mode.real_per_s, one.frequency_Hz - mode.frequency_Hz),
          ),
        ),
      ).toBeLessThan(1);
    }
    const basis = { depth: 32, least: 0.5, asked: () => true };
    const deciding = new DecidingModes({ whole: basis, fast: basis }).of(system).modes;
    const least = fast.reduce((a, b) => (b.damping_ratio < a.damping_ratio ? b : a));
    expect(
      Math.min(
        ...deciding.map(({ re, im }) =>
          Math.hypot(re - least.real_per_s, Math.abs(im) - 2 * Math.PI * least.frequency_Hz),
        ),
      ),
    ).toBeLessThan(1e-3 * 2 * Math.PI * least.frequency_Hz);
  });
});
