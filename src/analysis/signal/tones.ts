/** The strongest tone of a band, in the worst piece of a stretch, off spectra that others read as well. */
import type { ComplexPairs } from './fourier.ts';
import type { SamplePiece } from './pieces.ts';
import type { SpectrumReader } from './spectra.ts';
import { isInBand, type Tone } from './spectrum.ts';
import { type WindowName, windowedBin, windowGain } from './windows.ts';

/** A tone, and the middle of what it was read from [samples]. */
export interface FoundTone extends Tone {
  readonly at: number;
}

export class StrongestTone implements SpectrumReader {
  private readonly rate_Hz: number;
  private readonly band_Hz: readonly [number, number];
  private readonly window: WindowName;
  /** Where it is largest; null where no bin lies in the band. */
  found: FoundTone | null = null;

  /** Off the bins only a flat top reads a tone's height truly. */
  constructor(rate_Hz: number, band_Hz: readonly [number, number], onBins: boolean) {
    this.rate_Hz = rate_Hz;
    this.band_Hz = band_Hz;
    this.window = onBins ? 'rectangular' : 'flat-top';
  }

  take(X: ComplexPairs, { start, samples: { length: n } }: SamplePiece): void {
    const bin_Hz = this.rate_Hz / n;
    const sum = n * windowGain(this.window);
    for (let k = Math.max(1, Math.floor(this.band_Hz[0] / bin_Hz)); 2 * k <= n; k++) {
      const frequency_Hz = k * bin_Hz;
      if (!isInBand(frequency_Hz, this.band_Hz)) {
        if (frequency_Hz > this.band_Hz[1]) break;
        continue;
      }
      const amplitude = ((2 * k === n ? 1 : 2) * windowedBin(X, n, k, this.window)) / sum;
      if (this.found === null || amplitude > this.found.amplitude)
        this.found = { frequency_Hz, amplitude, at: start + n / 2 };
    }
  }
}
