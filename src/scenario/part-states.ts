/**
 * States of parts: what age and temperature make of a value that is stated for a new part at usual temperature. A
 * model says what it makes of each number (`end_of_life`, `cold`, `hot`); a scenario or a study says which parts
 * are in which state, `ageing.trays = end-of-life`, `temperature.T4 = cold`.
 */
import type { FieldSpec } from './text/field.ts';

/** What a model may state of a number beside its value: what it is in an extreme state. */
export const extremes = ['end_of_life', 'cold', 'hot'] as const;

export type Extreme = (typeof extremes)[number];

interface PartState {
  /** null: as new, at usual temperature. */
  readonly extreme: Extreme | null;
  /** How much of the way to it: 0 to 1. */
  readonly part: number;
}

interface StateKind {
  readonly means: string;
  readonly states: Readonly<Record<string, PartState>>;
}

/** Kinds of states, by the first word of a change and the section of a scenario. */
export const stateKinds = {
  ageing: {
    means: 'age of the units of a kind, or of one unit, as their models state it',
    states: {
      new: { extreme: null, part: 0 },
      'mid-life': { extreme: 'end_of_life', part: 0.5 },
      'end-of-life': { extreme: 'end_of_life', part: 1 },
    },
  },
  temperature: {
    means: 'temperature of the units of a kind, or of one unit, as their models state it; bars too',
    states: {
      usual: { extreme: null, part: 0 },
      cold: { extreme: 'cold', part: 1 },
      hot: { extreme: 'hot', part: 1 },
    },
  },
} as const satisfies Readonly<Record<string, StateKind>>;

export type StateKindName = keyof typeof stateKinds;

export const stateKindNames = Object.keys(stateKinds) as readonly StateKindName[];

/** The kind of state that a change sets, `ageing` for `ageing.trays`; null where it sets none. */
export function stateKindOf(path: string): StateKindName | null {
  const [kind = '', target] = path.split('.');
  return target !== undefined && kind in stateKinds ? (kind as StateKindName) : null;
}

/** What may be written of a kind. */
export function stateField(kind: StateKindName): FieldSpec {
  const { states, means } = stateKinds[kind];
  return { kind: 'choice', of: Object.keys(states), means };
}

export function stateNamed(kind: StateKindName, word: string): PartState | null {
  const states: Readonly<Record<string, PartState>> = stateKinds[kind].states;
  return Object.hasOwn(states, word) ? states[word]! : null;
}
