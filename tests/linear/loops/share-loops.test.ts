/** The margin of the share loops is the factor on 1/τ at which the cabinet's modes begin to grow. */
import { expect, it } from 'vitest';
import { logFrequencies } from '../../../src/linear/curves.ts';
import { marginsOf } from '../../../src/linear/loops/margins.ts';
import { restAt } from '../../../src/linear/rest.ts';
import { CellWorkshop } from '../../../src/studies/gains/cell.ts';
import { placesOf } from '../../../src/studies/response/places.ts';
import { firmwareLoops } from '../../../src/studies/response/sampled-loops.ts';
import { shipped } from '../scenario.ts';

it('all opened at once: 18.9 dB, a hundredth below it decays, a hundredth above it grows', () => {
  const scenario = shipped('single-step');
  const loops = firmwareLoops(placesOf(restAt(scenario, 240e3), [], null));
  const share = loops.find(({ name }) => name === 'share loops')!;
  const { gain_margin_dB } = marginsOf(share.at, logFrequencies(0.1, 50, 40), 0);
  expect(gain_margin_dB).toBeCloseTo(18.9, 1);
  const workshop = new CellWorkshop();
  const isStable = (factor: number): boolean => {
    const { share: values } = scenario.firmware;
    const time_constant_s = values.time_constant_s / (factor * 10 ** (gain_margin_dB! / 20));
    const firmware = { ...scenario.firmware, share: { ...values, time_constant_s } };
    return workshop.cell({ ...scenario, firmware }, 240e3).stable;
  };
  expect([0.99, 1.01].map(isStable)).toEqual([true, false]);
});
