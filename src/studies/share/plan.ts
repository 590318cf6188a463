/** What tests of the share loop look at: one trial for each case, at one load. */
import type { Scenario } from '../../scenario/scenario.ts';
import { toolVersion } from '../../version.ts';
import { settledLoad_W } from '../settled-load.ts';
import type { Planned } from '../study.ts';
import type { ChangedScenario, ReadChanged, Trial } from '../trials/trial.ts';
import { casesOf, type ShareCase } from './cases.ts';

export interface SharePlan extends Planned {
  readonly scenario: Scenario;
  readonly load_W: number;
  readonly cases: readonly ShareCase[];
  readonly trials: readonly Trial<'share'>[];
}

/** `only`: names of the cases wanted; all where it is left out. Throws BadInput. */
export function planShare(
  { scenario: file, changes, load_W: asked_W }: ChangedScenario & { readonly load_W: number | null },
  read: ReadChanged,
  only?: readonly string[],
): SharePlan {
  const { scenario, warnings } = read({ scenario: file, changes });
  const load_W = settledLoad_W(scenario, asked_W);
  const cases = casesOf(scenario).filter(({ name }) => only === undefined || only.includes(name));
  return {
    called: `share of ${scenario.id}`,
    identity: {
      tool_version: toolVersion,
      study: { share: cases, scenario: file, changes, load_W },
      inputs: scenario.inputs,
    },
    warnings,
    scenario,
    load_W,
    cases,
    trials: cases.map(({ changes: own, happens, look_s }) => ({
      kind: 'share',
      scenario: file,
      changes: [...changes, ...own],
      load_W,
      happens,
      look_s,
    })),
  };
}
