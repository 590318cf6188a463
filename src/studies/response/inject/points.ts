/** Injected sines as points of a bench: laid over the curves, written in the form that `--measured` reads, and in words. */
import { csvTable } from '../../tables.ts';
import { threeDigits } from '../paper.ts';
import type { ResponsePoint } from '../points.ts';
import { summingPoints } from './drives.ts';
import type { Injected } from './inject.ts';

export function injectedPoints(sines: readonly Injected[]): ResponsePoint[] {
  return sines.flatMap(({ curves, frequency_Hz }) =>
    curves.map(({ curve, gain_dB, phase_deg }, k) => ({
      curve,
      line: k + 1,
      frequency_Hz,
      gain_dB,
      phase_deg,
    })),
  );
}

export function injectedCsv(sines: readonly Injected[]): string {
  return csvTable(
    ['curve', 'frequency_Hz', 'gain_dB', 'phase_deg'],
    injectedPoints(sines).map(({ curve, frequency_Hz, gain_dB, phase_deg }) => [
      curve,
      frequency_Hz,
      gain_dB,
      phase_deg,
    ]),
  );
}

const units = { power: 'W', voltage: 'V', current: 'A' } as const;

/** What was put in, who came to a clamp, and from which amplitude on one does. */
export function injectedLines(sines: readonly Injected[]): string[] {
  const [first] = sines;
  if (first === undefined) return [];
  const unit = units[summingPoints[first.point].unit];
  const height = (x: number): string => `${threeDigits(x)} ${unit}`;
  return [
    `Sines of ${height(first.amplitude)} on ${summingPoints[first.point].means}, read over whole cycles of a run`,
    ...sines.flatMap(({ frequency_Hz, clamp, clamps }) => {
      const at = `${threeDigits(frequency_Hz)} Hz`;
      const now =
        clamp === null
          ? []
          : [`  ${at}: ${clamp.who} comes to a clamp: no small signal, the difference is the clamp's too`];
      if (clamps === null) return now;
      return [
        ...now,
        clamps.from === null
          ? `  ${at}: no clamp up to ${height(clamps.tried)}`
          : `  ${at}: clamps begin at ${height(clamps.from)} (${clamps.clamp!.who})`,
      ];
    }),
  ];
}
