/**
 * What limits and the report read off the spectra of steady stretches: ripple by band, single tones, shares of the swing's
 * energy. Each stretch is transformed once for all of them.
 */
import type { QuantityName } from '../../scenario/limit-quantities.ts';
import { EnergyShare } from '../grid/energy-share.ts';
import type { Case } from '../record/case.ts';
import { once } from '../record/once.ts';
import { type SteadyStretch, steadyStretches } from '../record/stretches.ts';
import { type BandEdges, type BandSwing, BandSwings, bandEdges_Hz } from '../signal/bands.ts';
import { isLong } from '../signal/pieces.ts';
import { readSpectra } from '../signal/spectra.ts';
import { type FoundTone, StrongestTone } from '../signal/tones.ts';

export interface SteadySpectra {
  readonly stretch: SteadyStretch;
  /** Of each of `bandsAsked`, in that order. */
  readonly bands: readonly BandSwing[];
  /** The strongest tone of a band that a limit names; null where no bin lies in it. */
  tone(band_Hz: BandEdges): FoundTone | null;
  /** The share of energy of a band that a limit names; null where nothing swings. */
  share(band_Hz: BandEdges): number | null;
}

/** The bands reported in every run, then those that only a limit names. */
export function bandsAsked(c: Case): BandEdges[] {
  return [...bandEdges_Hz, ...asked(c, 'ac-band-ripple')].filter(isFirst);
}

/** In the order of `steadyStretches`. */
export const steadySpectra: (c: Case) => readonly SteadySpectra[] = once((c) =>
  steadyStretches(c).map((stretch) => {
    const { samples, rate_Hz, wholePeriods, endless } = stretch;
    const bands = new BandSwings(samples, rate_Hz, bandsAsked(c), endless);
    const shares = named(asked(c, 'ac-energy-share'), (band) => new EnergyShare(rate_Hz, band));
    const onBins = wholePeriods && !isLong(samples);
    const tones = named(asked(c, 'ac-tone'), (band) => new StrongestTone(rate_Hz, band, onBins));
    const whole = [bands, ...shares.values()];
    if (onBins === wholePeriods) readSpectra(samples, wholePeriods, [...whole, ...tones.values()]);
    else {
      // Tones of many whole periods are read in pieces, for memory; their bands at once.
      readSpectra(samples, true, whole);
      readSpectra(samples, false, [...tones.values()]);
    }
    return {
      stretch,
      bands: bands.read(),
      tone: (band) => tones.get(nameOf(band))!.found,
      share: (band) => shares.get(nameOf(band))!.read(),
    };
  }),
);

/** Bands of the limits on a quantity. */
function asked({ scenario }: Case, quantity: QuantityName): BandEdges[] {
  return scenario.limits.flatMap((row) =>
    row.quantity === quantity && row.band_Hz !== null ? [row.band_Hz] : [],
  );
}

function named<T>(bands: readonly BandEdges[], make: (band: BandEdges) => T): ReadonlyMap<string, T> {
  return new Map(bands.map((band) => [nameOf(band), make(band)]));
}

function nameOf([low_Hz, high_Hz]: BandEdges): string {
  return `${low_Hz} to ${high_Hz} Hz`;
}

function isFirst(band: BandEdges, k: number, all: readonly BandEdges[]): boolean {
  return all.findIndex((one) => nameOf(one) === nameOf(band)) === k;
}
