import { describe, expect, it } from 'vitest';
import { advance } from '../../src/engine/advance.ts';
import { ready } from '../../src/engine/cabinet.ts';
import { firmwareAgenda } from '../../src/engine/firmware-agenda.ts';
import { angle, scaled } from '../../src/linear/complex.ts';
import { Curves } from '../../src/linear/curves.ts';
import { decibels } from '../../src/linear/decibels.ts';
import { restAt, straightened } from '../../src/linear/rest.ts';
import type { Demand } from '../../src/loads/demand.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { placesOf } from '../../src/studies/response/places.ts';
import { shipped } from './scenario.ts';

const load_W = 200e3;
const swing_W = 400;

/** Gain and phase of the rectifiers' current over a sine on the load, measured in time over the last periods. */
function measured(scenario: Scenario, frequency_Hz: number): { gain_dB: number; phase_deg: number } {
  const straight = straightened(scenario, load_W);
  const constant = makeDemand(straight);
  const omega = 2 * Math.PI * frequency_Hz;
  const { tick_s } = straight;
  const demand: Demand = {
    ...constant,
    profileCount: constant.profileCount,
    profileOf: constant.profileOf,
    nextKink: () => Number.POSITIVE_INFINITY,
    kinkAt: () => 0,
    at: (out, tick) => out.fill(load_W + swing_W * Math.sin(omega * tick * tick_s)),
  };
  // Half the rungs: at these frequencies the ladder then takes the linear analysis' own, or finer ones.
  const cabinet = ready(assemble(straight), demand, 2);
  const { network, stepper } = cabinet;
  const { stages } = network;
  const current = (x: Float64Array): number => {
    let sum = 0;
    for (let k = 0; k < network.shelfCount; k++) sum += x[stages.offset + k]!;
    return sum;
  };
  const periods = Math.max(4, Math.round(0.2 * frequency_Hz));
  const end = Math.round((Math.max(0.3, 2 / frequency_Hz) + periods / frequency_Hz) / tick_s);
  const from = end - Math.round(periods / frequency_Hz / tick_s);
  let [re, im, weight] = [0, 0, 0];
  const rest = current(stepper.x0);
  advance(cabinet, firmwareAgenda(cabinet, 0), 0, end, {
    edge: () => {},
    step: (a, b) => {
      if (a < from) return true;
      const h = (b - a) * tick_s;
      for (const [tick, x] of [
        [a, stepper.x0],
        [b, stepper.x1],
      ] as const) {
        const value = current(x) - rest;
        re += (value * Math.cos(omega * tick * tick_s) * h) / 2;
        im -= (value * Math.sin(omega * tick * tick_s) * h) / 2;
      }
      weight += h;
      return true;
    },
  });
  // A sine put in: its component is −j/2 of its height.
  const [gr, gi] = [(2 * re) / weight, (2 * im) / weight];
  const [hr, hi] = [(-gi * scenario.nominal_V) / swing_W, (gr * scenario.nominal_V) / swing_W];
  return { gain_dB: 20 * Math.log10(Math.hypot(hr, hi)), phase_deg: (Math.atan2(hi, hr) * 180) / Math.PI };
}

describe.each([
  ['a ramp of the trays', []],
  ['a high-pass of the source', ['firmware.smoothing.reference=source-high-pass']],
] as const)('the frequency response under %s', (_, set) => {
  const scenario = shipped('single-step', ...set);
  const places = placesOf(restAt(scenario, load_W), [], null);
  const curves = new Curves(places.system);
  it.each([20, 60, 250, 900])(
    'at %d Hz is what a sine on the load shows in time, within 0.2 dB and 2°',
    (frequency_Hz) => {
      const foreseen = scaled(
        curves.at(frequency_Hz, [places.load])[0]!.read(places.rectifierCurrent),
        scenario.nominal_V,
      );
      const seen = measured(scenario, frequency_Hz);
      const turn = seen.phase_deg - (angle(foreseen) * 180) / Math.PI;
      expect(Math.abs(seen.gain_dB - decibels(foreseen))).toBeLessThan(0.2);
      expect(Math.abs(turn - 360 * Math.round(turn / 360))).toBeLessThan(2);
    },
  );
});
