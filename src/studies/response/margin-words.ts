/** Margins of a loop in words, the same on a terminal and on a page. */
import { digits } from '../../base/digits.ts';
import type { Loop } from './loop.ts';
import { threeDigits } from './paper.ts';

type Told = Omit<Loop, 'name' | 'about' | 'kind' | 'places'>;

/** Heads of the cells of `marginCells`. */
export const marginHeads = [
  'gain may rise',
  'at',
  'gain may fall',
  'phase margin',
  'delay margin',
  'nearest to −1',
  'each alone (disk)',
] as const;

/** A cell for each head. `isStable`: no mode of the cabinet grows. */
export function marginCells(loop: Told, isStable: boolean): string[] {
  if (!isStable) return [unstableWords(loop), '', '', '', '', '', ''];
  const { gain_margin_dB, phase_crossover_Hz, gain_down_dB, phase_margin_deg, delay_margin_s } = loop;
  const { clearance_ratio, clearance_Hz, disk_gain_dB, disk_phase_deg } = loop;
  return [
    gain_margin_dB === null ? 'beyond 40 dB' : `${gain_margin_dB.toFixed(2)} dB`,
    phase_crossover_Hz === null ? '–' : `${threeDigits(phase_crossover_Hz)} Hz`,
    gain_down_dB === null ? 'beyond 40 dB' : `${(-gain_down_dB).toFixed(1)} dB`,
    phase_margin_deg === null ? 'none: below 1' : phaseWords(phase_margin_deg),
    delay_margin_s === null ? '–' : shortTime(delay_margin_s),
    clearance_ratio === null ? '–' : `${clearance_ratio.toFixed(2)} at ${threeDigits(clearance_Hz!)} Hz`,
    disk_phase_deg === null
      ? '–'
      : `±${disk_gain_dB === null ? '∞' : disk_gain_dB.toFixed(1)} dB or ±${disk_phase_deg.toFixed(0)}°`,
  ];
}

/** What stands instead of margins where the cabinet is unstable. */
export function unstableWords({ stable_at_dB }: Pick<Told, 'stable_at_dB'>): string {
  if (stable_at_dB === null) return 'unstable';
  const way = stable_at_dB < 0 ? 'down' : 'up';
  return `unstable: stable ${Math.abs(stable_at_dB).toFixed(2)} dB ${way}`;
}

/** One sentence for a curve. */
export function marginSentence(loop: Told, isStable: boolean): string {
  if (!isStable) return unstableWords(loop);
  const [rise, at, fall, phase, delay, nearest, disk] = marginCells(loop, isStable);
  return [
    `gain may rise by ${rise}${at === '–' ? '' : ` (${at})`} or fall by ${fall}`,
    loop.phase_margin_deg === null
      ? 'the gain stays below 1'
      : `phase margin ${phase}, delay margin ${delay}`,
    `nearest to −1: ${nearest}`,
    `by itself: ${disk}`,
  ].join('; ');
}

function phaseWords(deg: number): string {
  return deg < 0 ? `${(-deg).toFixed(1)}° lead` : `${deg.toFixed(1)}°`;
}

/** A delay as a reader compares it: µs, ms or s. */
export function shortTime(seconds: number): string {
  if (seconds >= 1) return `${digits(seconds)} s`;
  return seconds < 1e-3 ? `${digits(1e6 * seconds)} µs` : `${digits(1e3 * seconds)} ms`;
}
