/** Sustained swings in words: who swings, how fast, whether it grows, who with it, against which limit. */
import type { RecordedSpan } from '../../events/spans.ts';
import { numberText } from '../words/number-text.ts';
import type { SwingCause } from './cause.ts';
import type { JudgedSwing } from './judged-swings.ts';

/** Growth over the time it was seen in one piece that is called neither growing nor dying. */
const even = 0.2;

/** Others are named with the largest from this part of its size, within this of its frequency. */
const with_ratio = 0.5;
const alike = 0.05;
const mostNamed = 3;

const causeWords: Readonly<Record<SwingCause, string>> = {
  own: '',
  load: 'driven by the load',
  line: 'driven by the line',
  'trim-quantum': 'a limit cycle of the trim quantum',
};

/** One clause for the largest swing, and who swings with it. */
export function swingWords(
  largest: JudgedSwing,
  all: readonly JudgedSwing[],
  spans: readonly RecordedSpan[],
): string {
  const { owner, unit, swing, cause } = largest;
  const made = cause === 'own' ? growthWords(largest) : causeWords[cause];
  return [
    `${owner} swings ${numberText(swing.swing, unit)} peak to peak at ${numberText(swing.frequency_Hz, 'Hz')}, ${made}`,
    ...againstWords(largest, spans),
    ...companyWords(largest, all),
    ...grewWords(largest),
  ].join('; ');
}

function growthWords({ swing: { rate_per_s, held_s, count } }: JudgedSwing): string {
  if (Math.abs(rate_per_s) * (held_s / count) < even) return 'neither growing nor dying';
  return `${rate_per_s > 0 ? 'growing' : 'dying'} by ${rateText(Math.abs(rate_per_s))}`;
}

/** At which of its limits the owner stood meanwhile. */
function againstWords({ owner, swing }: JudgedSwing, spans: readonly RecordedSpan[]): string[] {
  const limits = spans
    .filter(({ kind, who, from_s, to_s }) => {
      return kind === 'at-limit' && who === owner && from_s < swing.to_s && to_s > swing.from_s;
    })
    .map(({ what }) => what);
  const distinct = [...new Set(limits)];
  return distinct.length === 0 ? [] : [`against its limit of ${distinct.join(' and ')}`];
}

function companyWords(largest: JudgedSwing, all: readonly JudgedSwing[]): string[] {
  const same = all.filter(
    ({ owner, size, cause, swing }) =>
      owner !== largest.owner &&
      cause === largest.cause &&
      size >= with_ratio * largest.size &&
      Math.abs(swing.frequency_Hz - largest.swing.frequency_Hz) <= alike * largest.swing.frequency_Hz,
  );
  const names = [...new Set(same.sort((a, b) => b.size - a.size).map(({ owner }) => owner))];
  if (names.length === 0) return [];
  const more = names.length > mostNamed ? ` and ${names.length - mostNamed} more` : '';
  return [`with it ${names.slice(0, mostNamed).join(', ')}${more}`];
}

/** How it grew while it was small, which is what the linear model tells. */
function grewWords({ cause, swing: { grew } }: JudgedSwing): string[] {
  return grew === null || cause !== 'own'
    ? []
    : [`it grew by ${rateText(grew.rate_per_s)} at ${numberText(grew.frequency_Hz, 'Hz')}`];
}

function rateText(rate_per_s: number): string {
  return `${Number(rate_per_s.toPrecision(3))} 1/s`;
}
