/** The spectrum of the AC power: its tones, and the bands with their ripple and limits. */
import { withoutLine } from '../src/analysis/signal/detrend.ts';
import { spectrumOf } from '../src/analysis/signal/spectrum.ts';
import type { Bundle } from '../src/bundle/format.ts';
import type { Stream } from '../src/engine/result.ts';

/** Peak to peak of each bin over the mean. */
export interface Lines {
  readonly bin_Hz: number;
  readonly ripple: Float64Array;
  readonly words: string;
}

export interface BandRow {
  readonly low_Hz: number;
  readonly high_Hz: number;
  readonly ripple: number | null;
  readonly limit: number | null;
  readonly word: string;
}

export function bandsOf({ report }: Bundle): readonly BandRow[] {
  return report.bands.map(({ low_Hz, high_Hz, ripple_ratio }) => {
    const finding = report.findings.find(({ id }) => id === `ac-ripple-${low_Hz}-${high_Hz}`);
    const word = finding === undefined ? 'reported, not limited' : finding.verdict.replaceAll('_', ' ');
    return { low_Hz, high_Hz, ripple: ripple_ratio, limit: finding?.limit ?? null, word };
  });
}

/**
 * A periodic load over whole periods needs no window: its tones fall on bins. Otherwise the mean line is taken
 * out and a Hann window keeps strong tones from hiding weak ones.
 */
export function linesOf(stream: Stream, { report, scenario }: Bundle): Lines | null {
  const first = Math.max(0, Math.round((report.window_s.from - stream.from_s) * stream.rate_Hz));
  const last = Math.min(
    stream.samples.length,
    Math.round((report.window_s.to - stream.from_s) * stream.rate_Hz),
  );
  if (last - first < 16) return null;
  let own = stream.samples.slice(first, last);
  const mean = own.reduce((sum, value) => sum + value, 0) / own.length;
  if (!(mean > 0)) return null;
  const period_s =
    scenario.load.kind === 'pulse-train' && scenario.load.jitter_s === 0 ? scenario.load.period_s : null;
  const duration_s = own.length / stream.rate_Hz;
  const periods = period_s === null ? 0 : Math.floor(duration_s / period_s + 1e-6);
  if (period_s !== null && periods >= 2)
    own = own.subarray(0, Math.round(periods * period_s * stream.rate_Hz));
  const whole = periods >= 2;
  const spectrum = spectrumOf(whole ? own : withoutLine(own), stream.rate_Hz, whole ? 'rectangular' : 'hann');
  const ripple = spectrum.amplitude.map((amplitude, k) => (k === 0 ? 0 : (2 * amplitude) / mean));
  const words = whole
    ? `${periods} whole periods, rectangular window, bins of ${spectrum.bin_Hz.toFixed(4)} Hz`
    : `Hann window after taking out a straight line, bins of ${spectrum.bin_Hz.toFixed(4)} Hz`;
  return { bin_Hz: spectrum.bin_Hz, ripple, words };
}
