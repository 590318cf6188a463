/** Where several things keep a value from settling its limit, one that leaves either way open leaves it open. */
import { describe, expect, it } from 'vitest';
import type { Trial } from '../../src/studies/trials/trial.ts';
import { changes, contextHere } from '../studies/here.ts';

/** How a limit comes out where the run ends before the step has been shown. */
async function verdictOf(limit: string, ...pairs: readonly string[]) {
  const trial: Trial<'run'> = {
    kind: 'run',
    scenario: 'scenarios/single-step.yaml',
    changes: changes('duration = 0.5 s', ...pairs),
  };
  const [outcome] = await contextHere().run([trial]);
  const { value, limit: at, verdict } = outcome!.findings.find(({ id }) => id === limit)!;
  return { beyond: value! > at!, verdict };
}

describe('a run that ends too soon', () => {
  it.each([
    ['tray-capacitor-rms', []],
    ['tray-hot-spot', ['limits.tray-hot-spot.normal = 50 degC']],
    ['bar-heat', ['limits.bar-heat.normal = 40 %']],
  ])('does not fail %s by an RMS that falls again', async (limit, pairs) => {
    expect(await verdictOf(limit, ...pairs)).toEqual({ beyond: true, verdict: 'inconclusive' });
  });

  it('still fails what more of the load could only make worse', async () => {
    const verdict = await verdictOf('shelf-peak', 'limits.shelf-peak.normal = 80 %');
    expect(verdict).toEqual({ beyond: true, verdict: 'fail' });
  });
});
