/** Which part of a power's swing lies in a band of frequencies, by energy. */
import type { BandEdges } from '../signal/bands.ts';
import type { ComplexPairs } from '../signal/fourier.ts';
import type { SamplePiece } from '../signal/pieces.ts';
import { readSpectra, type SpectrumReader } from '../signal/spectra.ts';

/**
 * Σ|X|² of the bins in low ≤ f ≤ high over that of all bins but 0 Hz. Over whole periods the bins are the
 * harmonics; else a straight line is removed first, and long stretches
 * are added up piece by piece. null for a power that does not swing.
 */
export function energyShare(
  samples: Float64Array,
  rate_Hz: number,
  wholePeriods: boolean,
  band_Hz: BandEdges,
): number | null {
  const share = new EnergyShare(rate_Hz, band_Hz);
  readSpectra(samples, wholePeriods, [share]);
  return share.read();
}

/** The same, of spectra that others read as well. */
export class EnergyShare implements SpectrumReader {
  private readonly rate_Hz: number;
  private readonly band_Hz: BandEdges;
  private inside = 0;
  private all = 0;

  constructor(rate_Hz: number, band_Hz: BandEdges) {
    this.rate_Hz = rate_Hz;
    this.band_Hz = band_Hz;
  }

  take(X: ComplexPairs, { samples: { length: n } }: SamplePiece): void {
    const [low_Hz, high_Hz] = this.band_Hz;
    let { inside, all } = this;
    for (let k = 1; 2 * k <= n; k++) {
      const energy = (2 * k === n ? 1 : 2) * (X[2 * k]! ** 2 + X[2 * k + 1]! ** 2);
      const f_Hz = (k * this.rate_Hz) / n;
      all += energy;
      if (f_Hz >= low_Hz * (1 - 1e-9) && f_Hz <= high_Hz * (1 + 1e-9)) inside += energy;
    }
    this.inside = inside;
    this.all = all;
  }

  read(): number | null {
    return this.all > 0 ? this.inside / this.all : null;
  }
}
