import type { MeasuredReport } from '../analysis/judge/report.ts';
import { halfWidthText } from '../analysis/words/interval-text.ts';
import { numberText } from '../analysis/words/number-text.ts';
import { betterElsewhere } from './better-elsewhere.ts';
import { type PlacedBy, placeByClassOrShape } from './class-or-shape.ts';
import type { StatedTime } from './measurement.ts';
import type { MeasuredPair } from './pair.ts';
import { type PlacedAt, within95 } from './place.ts';
import type { Whiteness } from './whiteness.ts';

/** What a report says of where the measurement lies. */
export type Placing = Omit<MeasuredReport, 'file' | 'sha256' | 'channels' | 'remarks'>;

/** Below these a place is not taken: the measurement is left where its file begins. */
const leastCorrelation = 0.3;
const leastConfidence = 0.95;

/** A place that is open by more than this share of the measurement's length, to either side, is none. */
const mostOpen = 0.5;

/** Places the columns, or takes the time that is stated, and says what must be known before that is trusted. */
export function placing(pairs: readonly MeasuredPair[], { at_s, near_s = null }: StatedTime): Placing {
  if (at_s !== null) {
    return { ...unplaced, at_s, aligned: 'given', warnings: betterElsewhere(pairs, at_s) };
  }
  const place = placeByClassOrShape(pairs, near_s);
  if (place === null) {
    return {
      ...unplaced,
      warnings: [`No place was found: the measurement shows no shape of this run. ${give}`],
    };
  }
  const { fine, precision, confidence_ratio, as_well_s, clock } = place;
  const best = fine.channels.reduce((a, b) => (weightOf(b) > weightOf(a) ? b : a));
  const sure = best.correlation_ratio >= leastCorrelation && confidence_ratio >= leastConfidence;
  const seen = {
    by: best.pair.channel,
    correlation_ratio: best.correlation_ratio,
    confidence_ratio,
    as_well_at_s: as_well_s,
  };
  if (!sure)
    return {
      ...unplaced,
      ...seen,
      warnings: [unsure(place, best.correlation_ratio)],
    };
  const error_s = precision.at_error_s;
  if (within95 * error_s > mostOpen * lengthOf(pairs))
    return {
      ...unplaced,
      ...seen,
      warnings: [
        `The best place, ${numberText(fine.at_s, 's')}, is open by ± ${halfWidthText(within95 * error_s, 'time')}, more than half of the measurement's length. ${give}`,
      ],
    };
  const told = clock === 'taken out';
  return {
    ...seen,
    at_s: fine.at_s,
    aligned: 'found',
    at_error_s: error_s,
    at_interval_s: [fine.at_s - within95 * error_s, fine.at_s + within95 * error_s],
    clock_rate_ratio: told ? fine.rate_ratio : null,
    clock_rate_error_ratio: told ? precision.rate_error_ratio : null,
    warnings: [
      ...doubts(place, Math.min(...pairs.map(({ interval_s }) => interval_s))),
      ...farFrom(place.fine.at_s, near_s, lengthOf(pairs)),
    ],
  };
}

/** A place this far from the stated time, of the measurement's length, is another than was meant. */
const farOff = 0.1;

function farFrom(at_s: number, near_s: number | null, length_s: number): string[] {
  if (near_s === null || Math.abs(at_s - near_s) <= farOff * length_s) return [];
  const [place, stated, off] = [at_s, near_s, Math.abs(at_s - near_s)].map((t) => numberText(t, 's'));
  return [
    `The place found, ${place}, lies ${off} from the stated ${stated} (--measured-near), where the shape does not agree. Check the time, or give --measured-at TIME.`,
  ];
}

function lengthOf(pairs: readonly MeasuredPair[]): number {
  return Math.max(...pairs.map(({ time_s }) => time_s.at(-1)! - time_s[0]!));
}

const give =
  'Nothing is moved: give --measured-at TIME, the time of the run at the first stamp, or --measured-near TIME where you know it to a third of the period.';

const unplaced: Placing = {
  at_s: 0,
  aligned: 'assumed',
  by: null,
  correlation_ratio: null,
  confidence_ratio: null,
  at_error_s: null,
  at_interval_s: null,
  as_well_at_s: [],
  clock_rate_ratio: null,
  clock_rate_error_ratio: null,
  warnings: [],
};

function weightOf({ byPlace, sigma }: PlacedAt['fine']['channels'][number]): number {
  return byPlace.reduce((sum, g) => sum + g * g, 0) / (sigma * sigma);
}

function unsure({ fine, as_well_s, confidence_ratio, parts }: PlacedAt, correlation_ratio: number): string {
  if (parts !== null) {
    const { at_s, before_s, behind_s } = parts;
    const [apart, way] = [
      numberText(Math.abs(behind_s - before_s), 's'),
      behind_s > before_s ? 'later' : 'earlier',
    ];
    return `Its parts lie at different places: from about ${numberText(at_s, 's')} of the file on the measurement agrees with the run ${apart} ${way} than before (its first stamp at ${numberText(before_s, 's')} by the first part, at ${numberText(behind_s, 's')} by the second). Either the stamps jump there, as where a clock is set, or a stretch of time is missing or there twice. Nothing is moved: give the parts as files of their own, or --measured-at TIME.`;
  }
  if (correlation_ratio < leastCorrelation) {
    return `The best place, ${numberText(fine.at_s, 's')}, agrees with a correlation of ${correlation_ratio.toFixed(2)} alone. ${give}`;
  }
  const places = [...as_well_s, fine.at_s].sort((a, b) => a - b);
  const period = periodOf(places);
  const every = period === null ? '' : `, every ${numberText(period, 's')}`;
  return `Its shape does not settle the place (confidence ${confidence_ratio.toFixed(2)}): it agrees as well at ${listed(places)}${every}. ${give} Or measure on to what differs, such as the first edge or an event.`;
}

function doubts({ fine, precision, as_well_s, by }: PlacedBy, interval_s: number): string[] {
  const warnings: string[] = [];
  if (by === 'shape') warnings.push(shapeAlone);
  if (as_well_s.length > 0) {
    warnings.push(
      `It agrees as well at ${listed(as_well_s)}, with less of it inside the run; if it began there, give --measured-at TIME.`,
    );
  }
  const wrong = fine.channels.flatMap(({ pair }, c) => {
    const { isNoise, signs } = precision.whiteness[c] as Whiteness;
    return isNoise ? [] : [`${pair.channel} (${signs.join(', ')})`];
  });
  if (wrong.length > 0) {
    warnings.push(
      `What is left of ${wrong.join(', ')} is not noise: the model differs from what was measured, and the place may be off by more than its interval says. Where the instrument averages or filters, declare it by --sensor; or settle the place by a common event, and give --measured-at TIME.`,
    );
  }
  if (within95 * precision.at_error_s > interval_s) {
    warnings.push(
      `The place is known to ± ${halfWidthText(within95 * precision.at_error_s, 'time')} only, more than a sample (${numberText(interval_s, 's')}).`,
    );
  }
  return warnings;
}

const shapeAlone =
  'The place was found by shape alone: within the class of the instruments, gain and zero, no place agrees as well, and a curve that settles has the same shape at other times. Check gains and zeros, or settle the place by a common event, and give --measured-at TIME.';

/** The distance between places, where it is the same to a hundredth. */
function periodOf(places: readonly number[]): number | null {
  const steps = places.slice(1).map((place, k) => place - places[k]!);
  if (steps.length < 2) return null;
  const [least, most] = [Math.min(...steps), Math.max(...steps)];
  return most - least <= 0.01 * most ? (places.at(-1)! - places[0]!) / steps.length : null;
}

function listed(places: readonly number[]): string {
  const shown = places.slice(0, 6).map((place) => numberText(place, 's'));
  return places.length > 6 ? `${shown.join(', ')} and ${places.length - 6} more` : shown.join(', ');
}
