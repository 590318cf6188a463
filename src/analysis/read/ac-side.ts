/** What the AC limits compare: ripple by band, single tones, ramps, dynamic range. */
import type { Limit } from '../../limits/limit.ts';
import { meansFromBefore } from '../record/before-start.ts';
import { type Case, repeated, worst } from '../record/case.ts';
import { shareOf } from '../record/spans.ts';
import { acPower, judgedOver, offered, ofSteady, round, type SteadyStretch } from '../record/stretches.ts';
import type { BandSwing } from '../signal/bands.ts';
import { meanOf } from '../signal/detrend.ts';
import { steepestRamp } from '../signal/ramp.ts';
import { largestRange } from '../signal/range.ts';
import { notShown, type Reading } from './reading.ts';
import { bandsAsked, steadySpectra } from './steady-spectra.ts';

const rangeLength_s = 10;

/** A band's ripple and where it was read. */
export interface BandReading {
  readonly band: BandSwing;
  readonly stretch: SteadyStretch | null;
}

/** The ripple of each band that is reported or limited: the worst of the steady stretches; null where none is long enough. */
export function acBands(c: Case): BandReading[] {
  const judged = steadySpectra(c);
  return bandsAsked(c).map(([low_Hz, high_Hz], k) => {
    const best = worst(
      judged.filter((j) => j.bands[k]!.ripple_ratio !== null),
      (j) => j.bands[k]!.ripple_ratio!,
    );
    return best === null
      ? { band: { low_Hz, high_Hz, ripple_ratio: null, after_s: null }, stretch: null }
      : { band: best.bands[k]!, stretch: best.stretch };
  });
}

/** `bands`: every band that is reported or limited, read once for all rows. */
export function readBand(c: Case, limit: Limit, bands: readonly BandReading[]): Reading {
  const edges = limit.band_Hz;
  if (edges === null) return notShown('the row names no frequency band');
  const found = bands.find(({ band }) => band.low_Hz === edges[0] && band.high_Hz === edges[1]);
  if (found === undefined || found.stretch === null || found.band.ripple_ratio === null) {
    return notShown(`needs ${round(2 / edges[0])} s of steady operation; ${offered(c)}`);
  }
  const { ripple_ratio, after_s } = found.band;
  return ofSteady(c, 2 / edges[0], {
    value: ripple_ratio,
    time_s: after_s === null ? null : found.stretch.from_s + after_s,
    reason: judgedOver(found.stretch),
  });
}

/** Peak to peak of the strongest tone in the row's band over the mean; of a long stretch, in its worst piece. */
export function readTone(c: Case, limit: Limit): Reading {
  const band = limit.band_Hz;
  if (band === null) return notShown('the row names no frequency band');
  const tones = steadySpectra(c).flatMap(({ stretch, tone }) => {
    const { samples, rate_Hz, from_s, endless } = stretch;
    if (!endless && samples.length / rate_Hz < 2 / band[0]) return [];
    const mean = meanOf(samples);
    const found = tone(band);
    if (found === null || !(mean > 0)) return [];
    // A tone has no moment: the middle of what it was read from says when.
    const time_s = from_s + found.at / rate_Hz;
    return [{ tone: found, ratio: (2 * found.amplitude) / mean, stretch, time_s }];
  });
  const found = worst(tones, (t) => t.ratio);
  if (found === null) return notShown(`needs ${round(2 / band[0])} s of steady operation; ${offered(c)}`);
  return ofSteady(c, 2 / band[0], {
    value: found.ratio,
    time_s: found.time_s,
    reason: `strongest at ${round(found.tone.frequency_Hz)} Hz, ${judgedOver(found.stretch)}`,
  });
}

/** Share of the swing's energy that lies in the row's band: the worst of the steady stretches. */
export function readEnergyShare(c: Case, limit: Limit): Reading {
  const band = limit.band_Hz;
  if (band === null) return notShown('the row names no frequency band');
  const shares = steadySpectra(c).flatMap(({ stretch, share: shareOfBand }) => {
    const { samples, rate_Hz, wholePeriods } = stretch;
    if (samples.length / rate_Hz < 2 / band[0] && !wholePeriods) return [];
    const share = shareOfBand(band);
    return share === null ? [] : [{ share, stretch }];
  });
  const found = worst(shares, (s) => s.share);
  if (found === null) return notShown(`needs ${round(2 / band[0])} s of steady operation; ${offered(c)}`);
  return ofSteady(c, 2 / band[0], { value: found.share, reason: judgedOver(found.stretch) });
}

/** Steepest ramp over window_s, either way. During walk-in only the ramp over 1 s applies. */
export function readRamp(c: Case, window_s: number): Reading {
  const means = meansFromBefore(c, acPower, window_s);
  if (means === null) return notShown('no AC power was recorded');
  const { lost, walkIn } = c.applies;
  const left_out = window_s >= 1 ? lost : [...lost, ...walkIn];
  const found = steepestRamp(means.values, means.from_s, means.width_s, window_s, left_out);
  if (found === null) return notShown(`needs ${round(2 * window_s)} s with AC; ${offered(c)}`);
  return {
    value: Math.abs(found.ramp),
    time_s: found.time_s,
    duration_s: window_s,
    share_seen: 1 - shareOf(c.result.window, left_out),
    reason: found.ramp < 0 ? 'downwards' : 'upwards',
  };
}

/** Highest minus lowest 10 ms mean within 10 s of steady operation. */
export function readRange(c: Case): Reading {
  const { columns, from_s, width_s } = c.result.means;
  const means = columns.get(acPower);
  if (means === undefined) return notShown('no AC power was recorded');
  const cycle = repeated(c);
  const spans = cycle === null ? c.applies.steady : [...c.applies.steady, cycle.span];
  const ranges = spans.flatMap((span) => {
    const first = Math.max(0, Math.ceil((span.from_s - from_s) / width_s - 1e-6));
    const end = Math.min(means.length, Math.floor((span.to_s - from_s) / width_s + 1e-6));
    if (span !== cycle?.span && (end - first) * width_s < rangeLength_s * (1 - 1e-9)) return [];
    const range = largestRange(means.subarray(first, end), from_s + first * width_s, width_s, rangeLength_s);
    return range === null ? [] : [range];
  });
  const found = worst(ranges, (r) => r.range);
  if (found === null) return notShown(`needs ${rangeLength_s} s of steady operation; ${offered(c)}`);
  const { range, time_s } = found;
  return ofSteady(c, rangeLength_s, { value: range, time_s, duration_s: rangeLength_s });
}
