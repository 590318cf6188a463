/** A point that margins are asked at: a load, a state, parts as they have become, numbers as they were drawn. */
import type { Change } from '../../../scenario/scenario.ts';
import { quoted, quotedPlace } from '../../trials/replay.ts';
import type { ChangedScenario, Trial } from '../../trials/trial.ts';
import { type PartsCase, partsName } from './part-changes.ts';
import { type CabinetState, stateName } from './states.ts';

/** A load as it is written, so that a command repeats it exactly. */
export interface WrittenLoad {
  readonly words: string;
  readonly load_W: number;
}

export interface Point {
  readonly load: WrittenLoad;
  readonly state: CabinetState;
  readonly parts: PartsCase;
  /** What was drawn, in words; `as stated` where nothing was. */
  readonly drawn: string;
  readonly changes: readonly Change[];
}

export const asStated = 'as stated';

/** The changes that put a cabinet into a state before anything else happens. */
export function stateChanges(state: CabinetState): readonly Change[] {
  return state.map((event) => ({ path: 'events.add', value: `${event} at 0 s` }));
}

export function pointTrial(
  { scenario, changes }: ChangedScenario,
  shelf: string | null,
  { load, state, parts, changes: drawn }: Point,
): Trial<'margins'> {
  return {
    kind: 'margins',
    scenario,
    changes: [...changes, ...drawn, ...parts, ...stateChanges(state)],
    load_W: load.load_W,
    state_count: state.length,
    shelf,
  };
}

/** The command that asks for this point by itself. */
export function pointCommand(
  { scenario, changes }: ChangedScenario,
  shelf: string | null,
  { load, state, parts, changes: drawn }: Point,
): string {
  const words = [
    ...[...changes, ...drawn, ...parts].flatMap(({ path, value }) => ['--set', `${path}=${value}`]),
    ...state.flatMap((event) => ['--state', event]),
    ...(shelf === null ? [] : ['--shelf', shelf]),
    '--at',
    load.words,
  ];
  return ['buswake response', quotedPlace(scenario), ...words.map(quoted)].join(' ');
}

/** `240 kW, ac-loss all; parts end-of-life; sample 7`. */
export function pointWords({ load, state, parts, drawn }: Point): string {
  return [
    `${load.words}, ${stateName(state)}`,
    ...(parts.length === 0 ? [] : [`parts ${partsName(parts)}`]),
    ...(drawn === asStated ? [] : [drawn]),
  ].join('; ');
}
