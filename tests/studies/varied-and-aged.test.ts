/** What a study varies is aged with its part: asked of the inputs of its trials, in either order of the changes. */
import { describe, expect, it } from 'vitest';
import { planRating } from '../../src/studies/rating/plan.ts';
import { planSize, sizeGrid } from '../../src/studies/size/plan.ts';
import { planSpread } from '../../src/studies/spread/plan.ts';
import type { Trial } from '../../src/studies/trials/trial.ts';
import type { StudyFile } from '../../src/studies/written/study-file.ts';
import { changes, contextHere, studyOf } from './here.ts';

const { read } = contextHere();
const aged = changes('ageing.trays = end-of-life');

/** Farads of the first tray in a trial, and whether its inputs say what made them. */
function input(trial: Trial<'run'>): [farads: number, told: boolean] {
  const { trays, alterations } = read(trial).scenario;
  const farads = trays[0]!.values.capacitance_F;
  const told = alterations.some(({ makes }) => makes?.includes(`→ ${Number(farads.toPrecision(6))} F`));
  return [farads, told];
}

describe('a capacitance that is varied', () => {
  const vary: Pick<StudyFile, 'vary'> = { vary: [['trays.capacitance', '100 F | 200 F']] };

  it.each([
    ['before it, by the study', { changes: aged }],
    ['behind it, by a corner', { corners: [{ name: 'aged', changes: aged }] }],
  ])('is aged by a sizing that ages %s', (_, ageing) => {
    const plan = planSize(studyOf('size', 'single-step', { ...vary, ...ageing }), read);
    expect(sizeGrid(plan).map(input)).toEqual([
      [80, true],
      [160, true],
    ]);
  });

  it('is drawn of a new part by a spread, and aged once', () => {
    const tolerances = [['trays.capacitance', 'uniform from 150 F to 150.001 F']] as const;
    const of = (text: string) => [['trays.capacitance', text]] as const;
    const words = { samples: '1' };
    const plan = (drawn: typeof tolerances | ReturnType<typeof of>) =>
      planSpread(studyOf('spread', 'single-step', { changes: aged, tolerances: drawn, words }), read);
    expect(input(plan(tolerances).trials[0]!)[0]).toBeCloseTo(120, 2);
    expect(input(plan(of('uniform by 0.001 %')).trials[0]!)[0]).toBeCloseTo(130, 2);
  });

  it('is scaled as that of a new part by a rating', () => {
    const study = studyOf('rating', 'single-step', {
      corners: [{ name: 'aged', changes: aged }],
      scale: ['trays.capacitance'],
      words: { from: '50 %', to: '50 %' },
    });
    const { tasks } = planRating(study, read);
    const { situation, changes: scaled } = tasks[0]!;
    const all = [...situation.before, ...scaled[0]!, ...situation.after];
    expect(input({ kind: 'run', scenario: situation.scenario, changes: all })[0]).toBeCloseTo(65, 9);
  });
});
