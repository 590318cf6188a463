/** Injected sines and chirps as points of a bench: laid over the curves, written in the form that `--measured` reads, and in words. */
import { csvTable } from '../../tables.ts';
import { threeDigits } from '../paper.ts';
import type { ResponsePoint } from '../points.ts';
import { summingPoints } from './drives.ts';
import type { ClampMet, Injected } from './inject.ts';

export function injectedPoints(swings: readonly Injected[]): ResponsePoint[] {
  return swings.flatMap(({ lines }) => lines.map((line, k) => ({ ...line, line: k + 1 })));
}

export function injectedCsv(swings: readonly Injected[]): string {
  return csvTable(
    ['curve', 'frequency_Hz', 'gain_dB', 'phase_deg'],
    injectedPoints(swings).map(({ curve, frequency_Hz, gain_dB, phase_deg }) => [
      curve,
      frequency_Hz,
      gain_dB,
      phase_deg,
    ]),
  );
}

const units = { power: 'W', voltage: 'V', current: 'A' } as const;

/** What was put in, who came to a clamp, and from which amplitude on somebody does. */
export function injectedLines(swings: readonly Injected[]): string[] {
  const [first] = swings;
  if (first === undefined) return [];
  const { unit, means } = summingPoints[first.point];
  const height = (x: number): string => `${threeDigits(x)} ${units[unit]}`;
  const { sweep_s } = first;
  return [
    sweep_s === null
      ? `Sines of ${height(first.amplitude)} on ${means}, read over whole cycles of a run`
      : `A chirp of ${height(first.amplitude)} on ${means}, in ${threeDigits(sweep_s)} s through all frequencies, each read as it is passed`,
    ...swings.flatMap(({ doubtful }) =>
      doubtful.map(({ frequency_Hz, why }) => `  ${threeDigits(frequency_Hz)} Hz is not comparable: ${why}`),
    ),
    ...swings.flatMap(({ frequencies_Hz, clamp, clamps }) => {
      const at = sweep_s === null ? `${threeDigits(frequencies_Hz[0]!)} Hz: ` : '';
      const met = (one: ClampMet): string =>
        `${one.who}: ${one.what}${sweep_s === null ? '' : ` at ${threeDigits(one.frequency_Hz)} Hz`}`;
      const now =
        clamp === null
          ? []
          : [`  ${at}a clamp is met (${met(clamp)}): no small signal, the difference is the clamp's too`];
      if (clamps === null) return now;
      return [
        ...now,
        clamps.from === null
          ? `  ${at}no clamp up to ${height(clamps.tried)}`
          : `  ${at}clamps begin at ${height(clamps.from)} (${met(clamps.clamp!)})`,
      ];
    }),
  ];
}
