/**
 * Sources with droop on one bus: V_b = (Σ V_k/R_k − I)/Σ 1/R_k, I_k = (V_k − V_b)/R_k.
 *
 * Sources: S. Luo et al., "A classification and evaluation of paralleling methods for power supply modules",
 * PESC 1999; numbers are arithmetic. Tolerance 1e-6 of a source's rated current: the stages are stepped until
 * their voltage loops have settled, at least twelve of their slowest time constants.
 *
 * The integral gain makes the static droop exact, so the stages here are those of the cabinet with ideal sensing.
 * Their currents cannot go below zero: none has to.
 */
import { describe, it } from 'vitest';
import { Circuit } from './circuit.ts';
import { published } from './published.ts';

/** Settled bus voltage and currents of sources with set points V and droop R under a load of I. */
function share(V: readonly number[], R: number, I: number, bus_V: number) {
  const n = V.length;
  const c = new Circuit(
    {
      nodes: 1,
      capacitors: [{ node: 0, C: 15e-3 * n, r: 1e-3 / n, u: bus_V + 0.05 }],
      stages: V.map((setPoint_V) => ({
        node: 0,
        setPoint_V,
        proportional_gain_A_per_V: 276,
        integral_gain_A_per_Vs: 3.2e5,
        droop_ohm: R,
        droop_filter_time_s: 0.2e-3,
        current_lag_s: 20e-6,
        control_delay_s: 0,
        slew_limit_A_per_s: 1e6,
        rated_A: 60,
        foldBack_V: 30,
      })),
      // No intakes here: nothing limits the stages' current but their slew.
      loads: [{ node: 0, power_W: I * bus_V }],
    },
    20e-6,
  );
  c.reach(0.3);
  return { bus: c.voltage(0), currents: V.map((_, k) => c.state(c.network.stages, 0, k)) };
}

const source = 'V_b = (Σ V/R − I)/Σ 1/R; Luo et al., PESC 1999';
const buses = published({ what: 'bus of droop sources', source, unit: 'V', absolute: true });
const shares = published({ what: 'currents of droop sources', source, unit: 'A', absolute: true });
const excess = published({ what: 'excess of one source set high, dV (1 − 1/N)/R', source, unit: 'A' });

const spreads = published({
  what: 'share error of a set point 0.25 % high, of rated',
  source: 'dV (1 − 1/N)/R, three digits',
  absolute: true,
});

describe('unequal droop sources', () => {
  const rest = [50, 50, 50, 50];
  const worst = 51 * 1.0025;
  it.each([
    ['three sources 54.1, 54.0, 53.9 V behind 2 mΩ', [54.1, 54, 53.9], 2e-3, 300, 53.8, [150, 100, 50]],
    [
      'six sources, 0.5 V per 60 A',
      [50.05, ...rest, 49.95],
      0.5 / 60,
      300,
      49.583333333,
      [56, 50, 50, 50, 50, 44],
    ],
    ['two sources 54.05 and 53.95 V behind 2.5 mΩ', [54.05, 53.95], 2.5e-3, 200, 53.75, [120, 80]],
    [
      'six of 60 A, set points 51 V ± 0.25 % as the worst pair',
      [worst, 51, 51, 51, 51, 2 * 51 - worst],
      0.5 / 60,
      288,
      50.6,
      [63.3, 48, 48, 48, 48, 32.7],
    ],
  ])('%s', (name, V, R, I, bus, currents) => {
    const got = share(V, R, I, bus);
    buses({ which: name, expected: bus, found: got.bus, tolerance: 1e-6 });
    currents.forEach((current, k) => {
      shares({ which: name, expected: current, found: got.currents[k]!, tolerance: 60e-6 });
    });
  });

  it('one source high by dV carries dV (1 − 1/N)/R more than its share', () => {
    const [N, R, dV, I] = [8, 0.694e-3, 0.05, 3000] as const;
    const V = Array.from({ length: N }, (_, k) => 50.25 + (k === 0 ? dV : 0));
    const bus = 50.25 + dV / N - (R * I) / N;
    const got = share(V, R, I, bus);
    excess({
      which: 'one of eight, 50 mV high',
      expected: (dV * (1 - 1 / N)) / R,
      found: got.currents[0]! - I / N,
      tolerance: 5e-6,
    });
  });

  // The worst of six set points 0.25 % high on 50 V, full load: share it carries too much, over rated.
  it.each([
    [0.5, 0.208],
    [1, 0.104],
    [1.5, 0.07],
  ])(
    'of six with a droop of %d V one set 0.25 % high carries %d of rated too much',
    (droop_V, excess_ratio) => {
      const V = Array.from({ length: 6 }, (_, k) => (k === 0 ? 50.125 : 50));
      const R = droop_V / 60;
      const bus = 50 + 0.125 / 6 - R * 40;
      const got = share(V, R, 240, bus);
      spreads({
        which: `droop ${droop_V} V`,
        expected: excess_ratio,
        found: (got.currents[0]! - 40) / 60,
        tolerance: 1e-3,
      });
    },
  );
});
