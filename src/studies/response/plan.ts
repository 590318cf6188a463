/** What a response asks: one trial about the settled point, and points to lay over its curves. */
import { BadInput } from '../../base/problem.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change, InputFile, Scenario } from '../../scenario/scenario.ts';
import { toolVersion } from '../../version.ts';
import { settledLoad_W } from '../settled-load.ts';
import type { Planned } from '../study.ts';
import type { ChangedScenario, ReadChanged, Trial } from '../trials/trial.ts';
import { type SwingsAsked, swingsOf } from './inject/swings.ts';
import { type OverAsked, type OverPlan, planOver } from './over/plan.ts';
import { stateChanges } from './over/point.ts';
import { type ResponsePoint, readPoints } from './points.ts';
import { defaults } from './respond.ts';

export interface ResponseWanted extends ChangedScenario {
  /** Null: the highest steady load of the scenario. */
  readonly load_W: number | null;
  /** What has come to stay, `ac-loss all`, as events say it without a time; none: as built. */
  readonly state: readonly string[];
  /** The worst margins over loads, states and tolerances; null: none are looked for. */
  readonly over: OverAsked | null;
  /** Sines or a chirp put into runs, whose points are laid over the curves; null: none. */
  readonly inject: SwingsAsked | null;
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
  readonly over: OverPlan | null;
  readonly swings: readonly Trial<'injected'>[];
  readonly measured: {
    readonly file: string;
    readonly points: readonly ResponsePoint[];
    readonly curve: string | null;
  };
}

/** Throws BadInput. */
export function planResponse(wanted: ResponseWanted, read: ReadChanged): ResponsePlan {
  const { measured, curve, state, shelf } = wanted;
  refuseTimes(state);
  const changes = [...wanted.changes, ...stateChanges(state)];
  const found = state.length === 0 ? read({ ...wanted, changes }) : readInState(wanted, changes, read);
  const { scenario, warnings } = found;
  const laid =
    measured === null ? [] : readPoints(measured.path, measured.text, [defaults.low_Hz, defaults.high_Hz]);
  const load_W = settledLoad_W(scenario, wanted.load_W);
  const swings =
    wanted.inject === null ? null : swingsOf(wanted.inject, [defaults.low_Hz, defaults.high_Hz], load_W);
  const trial: Trial<'response'> = {
    kind: 'response',
    scenario: wanted.scenario,
    changes,
    load_W,
    state,
    state_count: state.length,
    nodes: wanted.nodes,
    shelf,
    points: wanted.points ?? defaults.points,
    also_Hz: [
      ...laid.map(({ frequency_Hz }) => frequency_Hz),
      ...(swings ?? []).flatMap((one) => one.frequencies_Hz),
    ],
  };
  const base = { scenario: wanted.scenario, changes: wanted.changes };
  const over =
    wanted.over === null
      ? null
      : planOver(wanted.over, read(base), { base, shelf, state, highest_W: load_W });
  const { path = '', sha256 = '' } = measured ?? {};
  return {
    called: `response of ${scenario.id}`,
    ...(over === null ? {} : { expects: over.expects }),
    identity: {
      tool_version: toolVersion,
      study: {
        response: trial,
        curve,
        ...(over === null ? {} : { over: wanted.over }),
        ...(swings === null ? {} : { inject: swings }),
      },
      inputs: [...scenario.inputs, ...(measured === null ? [] : [{ path, sha256 }])],
    },
    warnings,
    scenario,
    trial,
    over,
    swings: (swings ?? []).map((one) => ({
      kind: 'injected',
      ...{
        scenario: wanted.scenario,
        changes,
        load_W,
        shelf,
        nodes: wanted.nodes,
        state_count: state.length,
      },
      ...one,
    })),
    measured: { file: path, points: laid, curve },
  };
}

/** The scenario as it is was read without a problem, so every event in question came by `--state`, and is named by it. */
function readInState(wanted: ResponseWanted, changes: readonly Change[], read: ReadChanged): ReadScenario {
  read(wanted);
  try {
    return read({ ...wanted, changes });
  } catch (problem) {
    if (!(problem instanceof BadInput)) throw problem;
    throw new BadInput(
      problem.problems.map(({ file: _file, line: _line, column: _column, ...told }) => ({
        ...told,
        path: '--state',
        found: untimed(told.found),
        expected: told.expected.replace(', and when', ', without a time'),
        mend: untimed(told.mend),
      })),
    );
  }
}

/** An event without the time that a state is given at, or that an example shows. */
function untimed(words: string): string {
  return words.replace(/ (at|for|over) .*$/, '');
}

/** What has come to stay has no time: it came before the point was settled. */
function refuseTimes(state: readonly string[]): void {
  const problems = state
    .filter((event) => / (at|for|over) /.test(`${event} `))
    .map((event) => ({
      severity: 'error' as const,
      path: '--state',
      found: event,
      expected: 'what has come to stay, without a time',
      mend: `write it like ${untimed(event)}`,
    }));
  if (problems.length > 0) throw new BadInput(problems);
}
