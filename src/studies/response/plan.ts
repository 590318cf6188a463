/** What a response asks: one trial about the settled point, and points to lay over its curves. */
import type { InputFile, Scenario } from '../../scenario/scenario.ts';
import { toolVersion } from '../../version.ts';
import { settledLoad_W } from '../settled-load.ts';
import type { Planned } from '../study.ts';
import type { ChangedScenario, ReadChanged, Trial } from '../trials/trial.ts';
import { type ResponsePoint, readPoints } from './points.ts';
import { defaults } from './respond.ts';

export interface ResponseWanted extends ChangedScenario {
  /** Null: the highest steady load of the scenario. */
  readonly load_W: number | null;
  readonly nodes: readonly string[];
  readonly shelf: string | null;
  /** Null: the usual number. */
  readonly points: number | null;
  /** Points of the user's own, as written; null: none. */
  readonly measured: (InputFile & { readonly text: string }) | null;
  /** Curve that points without one of their own belong to. */
  readonly curve: string | null;
}

export interface ResponsePlan extends Planned {
  readonly scenario: Scenario;
  readonly trial: Trial<'response'>;
  readonly measured: {
    readonly file: string;
    readonly points: readonly ResponsePoint[];
    readonly curve: string | null;
  };
}

/** Throws BadInput. */
export function planResponse(wanted: ResponseWanted, read: ReadChanged): ResponsePlan {
  const { scenario, warnings } = read(wanted);
  const { measured, curve } = wanted;
  const laid =
    measured === null ? [] : readPoints(measured.path, measured.text, [defaults.low_Hz, defaults.high_Hz]);
  const trial: Trial<'response'> = {
    kind: 'response',
    scenario: wanted.scenario,
    changes: wanted.changes,
    load_W: settledLoad_W(scenario, wanted.load_W),
    nodes: wanted.nodes,
    shelf: wanted.shelf,
    points: wanted.points ?? defaults.points,
    also_Hz: laid.map(({ frequency_Hz }) => frequency_Hz),
  };
  const { path = '', sha256 = '' } = measured ?? {};
  return {
    called: `response of ${scenario.id}`,
    identity: {
      tool_version: toolVersion,
      study: { response: trial, curve },
      inputs: [...scenario.inputs, ...(measured === null ? [] : [{ path, sha256 }])],
    },
    warnings,
    scenario,
    trial,
    measured: { file: path, points: laid, curve },
  };
}
