/** The smallest cabinet that has every state, and its margins. */
import type { Change } from '../../../../src/scenario/scenario.ts';
import { orWhyNot } from '../../../../src/studies/bench/run-whole.ts';
import { type MarginsAt, marginsAt, unsettled } from '../../../../src/studies/response/margins-at.ts';
import { stateChanges } from '../../../../src/studies/response/over/point.ts';
import { contextHere } from '../../here.ts';

export const scenario = 'tests/fixtures/small.yaml';

const { read } = contextHere();

/** Margins of it at 12 kW in a state, with further changes. */
export function marginsOf(state: readonly string[], further: readonly Change[] = []): MarginsAt {
  const found = read({ scenario, changes: [...further, ...stateChanges(state)] });
  return orWhyNot(() => marginsAt(found.scenario, { load_W: 12e3, state_count: state.length }), unsettled);
}
