import { headOf } from '../head.ts';
import type { Study } from '../study.ts';
import type { RunTrials } from '../trials/trial.ts';
import { fitParameters } from './fit.ts';
import type { FitDocument } from './fit-document.ts';
import { unpacked } from './packed.ts';
import { fitMarkdown, fitSentence } from './paper.ts';
import { type FoundPlace, firstPlace, refuseAssumed } from './place.ts';
import type { FitPlan } from './plan.ts';

/** Parameters adjusted inside their ranges to a measurement, with confidence. */
export const fit: Study<FitPlan, FitDocument> = {
  name: 'fit',
  carryOut: async (plan, run) => {
    const { scenario, measurement, measured } = plan;
    const place = await placeOf(plan, run);
    const report = await fitParameters({
      adjusted: plan.adjusted,
      suspects: plan.suspects,
      measurement,
      place: firstPlace(place, measurement),
      run: async (changes) => {
        const all = [...plan.of.changes, ...changes];
        const [found] = await run([
          { kind: 'simulated', scenario: plan.of.scenario, changes: all, measured },
        ]);
        return unpacked(found!);
      },
    });
    const { file, sha256 } = measurement;
    return {
      ...headOf(
        {
          id: scenario.id,
          kind: 'fit',
          title: `Fit of ${scenario.title}`,
          about: `parameters adjusted to the measurement ${file}`,
        },
        [...scenario.inputs, { path: file, sha256 }, ...plan.of.changes.map((change) => ({ change }))],
        [scenario.nominal_V],
      ),
      measured: { file, sha256, aligned: place.aligned },
      base: plan.of,
      ...report,
    };
  },
  parts: null,
  // What was found is told with its interval, or without one: whether it will do is the reader's.
  end: () => 'passed',
  sentence: fitSentence,
  papers: (report) => ({ 'study.md': fitMarkdown(report) }),
};

async function placeOf({ of, measured }: FitPlan, run: RunTrials): Promise<FoundPlace> {
  const [place] = await run([{ kind: 'place', ...of, measured }]);
  refuseAssumed(measured.file, place!);
  return place!;
}
