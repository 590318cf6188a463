/** The highest that each kind of heat gets, of whom and when. */
import type { SlowStates } from './slow-states.ts';

export interface Peak {
  readonly value: number;
  readonly node: string;
  readonly at_s: number;
}

export const heatKinds = ['bar_K', 'joint_K', 'tray_degC', 'bank_degC'] as const;

export type Peaks = Readonly<Record<(typeof heatKinds)[number], Peak | null>>;

export const noPeaks: Peaks = { bar_K: null, joint_K: null, tray_degC: null, bank_degC: null };

export function higherOf(peaks: Peaks, states: SlowStates, at_s: number): Peaks {
  const higher = (kind: (typeof heatKinds)[number]): Peak | null => {
    let found = peaks[kind];
    for (const [node, value] of states[kind])
      if (found === null || value > found.value) found = { value, node, at_s };
    return found;
  };
  return {
    bar_K: higher('bar_K'),
    joint_K: higher('joint_K'),
    tray_degC: higher('tray_degC'),
    bank_degC: higher('bank_degC'),
  };
}
