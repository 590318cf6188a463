/**
 * A fixed share of the series of scripts/random-cabinets.ts: its thousand is run by `npm run long`. Two seeds of their
 * own, so that what runs here is not what the thousand has been looked at with.
 */
import { describe, expect, it } from 'vitest';
import { refined } from '../../scripts/random-cabinets/refinement.ts';
import { randomScenario } from '../../scripts/random-cabinets/scenario.ts';
import { runSeries } from '../../scripts/random-cabinets/series.ts';

describe('random cabinets with random faults', () => {
  it('run to an end with closed books', () => {
    const tally = runSeries({ seed: 7, from: 0, to: 25, shorted: false });
    expect(tally.unclean).toEqual([]);
    expect(tally.closed).toBe(25);
  });

  it('and with a short each', () => {
    const tally = runSeries({ seed: 8, from: 0, to: 15, shorted: true });
    expect(tally.unclean).toEqual([]);
    expect(tally.closed).toBe(15);
  });

  it('show the same figures at a half and a quarter of the step', () => {
    for (let number = 0; number < 4; number++) {
      const { converges, outcomes, faults } = refined(8, number);
      expect(converges, `${number}: ${JSON.stringify(outcomes)} ${faults}`).toBe(true);
    }
  });

  it('are the same whichever were drawn before', () => {
    const files = randomScenario(7, 3, false).files;
    randomScenario(8, 1, true);
    expect(randomScenario(7, 3, false).files).toEqual(files);
  });
});
