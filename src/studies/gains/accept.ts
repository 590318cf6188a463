/** What a point of a gains map must show to be acceptable: criteria with their usual values, which may be changed. */
import { BadInput, type Problem } from '../../base/problem.ts';
import { type Dimension, formatPercent, readQuantity } from '../../base/quantity.ts';
import { listed, nearestWords } from '../../scenario/text/nearest.ts';
import { leastDamping } from '../damping.ts';
import type { GainsCell } from './cell.ts';

export interface Acceptance {
  readonly damping_ratio: number;
  readonly damping_fast_ratio: number;
  readonly clearance_ratio: number;
  readonly settling_s: number;
  readonly overshoot_ratio: number;
  readonly steady_error_ratio: number;
}

interface Criterion {
  /** As it is named to change it. */
  readonly name: string;
  readonly words: string;
  readonly side: 'at least' | 'at most';
  readonly dimension: Extract<Dimension, 'ratio' | 'time'>;
  /** A plain number rather than per cent. */
  readonly isPlain: boolean;
  readonly usual: number;
  /** On the map, for a point that lacks this first. */
  readonly letter: string;
  readonly source: string;
}

const practice = 'common practice, no source';

/** In the order in which a point is asked. */
export const criteria: Readonly<Record<keyof Acceptance, Criterion>> = {
  damping_ratio: {
    name: 'damping',
    words: 'damping ratio of every mode below 1 kHz',
    ...{ side: 'at least', dimension: 'ratio', isPlain: true, letter: 'd', source: practice },
    usual: leastDamping.below_1kHz_ratio,
  },
  damping_fast_ratio: {
    name: 'fast_damping',
    words: 'damping ratio of every mode from 1 to 10 kHz (beyond, to 20 kHz: 0.02, as of every run)',
    ...{ side: 'at least', dimension: 'ratio', isPlain: true, letter: 'd', source: practice },
    usual: leastDamping.below_10kHz_ratio,
  },
  clearance_ratio: {
    name: 'share_clearance',
    words: "distance of the share loop's gain from −1 (0.6 is a gain margin of 8 dB or more)",
    ...{ side: 'at least', dimension: 'ratio', isPlain: true, letter: 'm', source: practice },
    usual: 0.6,
  },
  settling_s: {
    name: 'settling',
    words: 'time until a set-point difference is shared to 2 %',
    ...{ side: 'at most', dimension: 'time', isPlain: false, letter: 's', source: practice },
    usual: 0.5,
  },
  overshoot_ratio: {
    name: 'overshoot',
    words: 'overshoot of that',
    ...{ side: 'at most', dimension: 'ratio', isPlain: false, letter: 'o', source: practice },
    usual: 0.2,
  },
  steady_error_ratio: {
    name: 'steady_error',
    words: 'largest deviation of a shelf from the mean at rest, of its rating',
    ...{ side: 'at most', dimension: 'ratio', isPlain: false, letter: 'e', source: practice },
    usual: 0.05,
  },
};

const keys = Object.keys(criteria) as (keyof Acceptance)[];

/** A criterion as people read it. */
export interface CriterionWords {
  readonly name: string;
  readonly means: string;
  /** `at most 0.5 s` */
  readonly usual: string;
  readonly source: string;
}

export const criterionNames: readonly string[] = keys.map((key) => criteria[key].name);

/** The criterion of that name; none where there is none. */
export function criterionNamed(word: string): CriterionWords[] {
  return keys.flatMap((key) => {
    const { name, words, side, usual, source } = criteria[key];
    return name === word ? [{ name, means: words, usual: `${side} ${valueText(key, usual)}`, source }] : [];
  });
}

export const usualAcceptance: Acceptance = acceptanceOf((key) => criteria[key].usual);

function acceptanceOf(of: (key: keyof Acceptance) => number): Acceptance {
  return Object.fromEntries(keys.map((key) => [key, of(key)])) as unknown as Acceptance;
}

/** The usual criteria, changed as written: `settling=0.3 s`. Throws BadInput with all that is wrong. */
export function acceptanceWith(words: readonly string[]): Acceptance {
  const problems: Problem[] = [];
  const changed = new Map<keyof Acceptance, number>();
  for (const word of words) {
    const cut = word.indexOf('=');
    const name = word.slice(0, Math.max(0, cut)).trim();
    const key = keys.find((one) => criteria[one].name === name);
    const refuse = (found: string, expected: string, mend: string): void => {
      problems.push({ severity: 'error', path: `--accept ${name || word}`, found, expected, mend });
    };
    if (key === undefined) {
      const names = keys.map((one) => criteria[one].name);
      const near = nearestWords(name, names);
      refuse(
        name === '' ? `${word}, without a criterion and its value` : `${name}, which is no criterion`,
        `one of ${names.join(', ')}, with its value`,
        near.length > 0 ? `perhaps ${listed(near)}` : 'write it like settling="0.3 s"',
      );
      continue;
    }
    const { dimension } = criteria[key];
    const reading = readQuantity(word.slice(cut + 1).trim(), dimension);
    const most = dimension === 'ratio' ? 1 : Number.POSITIVE_INFINITY;
    if (!reading.ok) refuse(reading.found, reading.expected, reading.mend);
    else if (!(reading.value > 0 && reading.value <= most))
      refuse(
        word.slice(cut + 1).trim(),
        dimension === 'ratio' ? 'above 0 and at most 1' : 'a time above 0',
        'choose another',
      );
    else if (changed.has(key)) refuse(`${name} twice`, 'each criterion once', 'leave one out');
    else changed.set(key, reading.value);
  }
  if (problems.length > 0) throw new BadInput(problems);
  return acceptanceOf((key) => changed.get(key) ?? criteria[key].usual);
}

/** A line for each criterion: `damping ratio of every mode below 1 kHz: at least 0.3 (common practice, no source)`. */
export function acceptanceLines(a: Acceptance): string[] {
  return keys.map((key) => {
    const { words, side, usual, name, source } = criteria[key];
    const from = a[key] === usual ? source : `asked for; usually ${valueText(key, usual)}, ${source}`;
    return `${words}: ${side} ${valueText(key, a[key])} (${from}; --accept ${name}=…)`;
  });
}

export function valueText(key: keyof Acceptance, value: number | null): string {
  const { dimension, isPlain } = criteria[key];
  if (value === null) return 'none';
  const short = Number(value.toPrecision(3));
  if (dimension === 'time') return `${short} s`;
  return isPlain ? String(short) : formatPercent(value, 3);
}

const shortWords: Readonly<Record<keyof Acceptance, (limit: string) => string>> = {
  damping_ratio: (limit) => `damping below ${limit} under 1 kHz`,
  damping_fast_ratio: (limit) => `damping below ${limit} from 1 to 10 kHz`,
  clearance_ratio: (limit) => `share loop nearer to −1 than ${limit}`,
  settling_s: (limit) => `settles slower than ${limit}`,
  overshoot_ratio: (limit) => `overshoots by more than ${limit}`,
  steady_error_ratio: (limit) => `steady share error above ${limit}`,
};

/** Why a cell is not acceptable, the first reason in this order; null where it is. */
export function lacks(cell: GainsCell, a: Acceptance): string | null {
  if (cell.reason !== null) return cell.reason;
  if (!cell.stable) return 'unstable';
  const key = missed(cell, a);
  return key === undefined ? null : shortWords[key](valueText(key, a[key]));
}

/** The first criterion that a cell with numbers does not meet. */
function missed(cell: GainsCell, a: Acceptance): keyof Acceptance | undefined {
  return keys.find((key) => isBeyond(cell, key, a[key]));
}

function isBeyond(cell: GainsCell, key: keyof Acceptance, limit: number): boolean {
  const value = cell[key];
  // A step that never settles is slower than any limit; what a point has no number for otherwise (no share loop) is not asked.
  if (value === null) return key === 'settling_s' && cell.clearance_ratio !== null;
  return criteria[key].side === 'at least' ? value < limit : value > limit;
}

/** Acceptable, acceptable only as it is and not in every circumstance, stable without being so, or neither. */
export function standingOf({
  stable,
  lacks,
  fails_in,
}: {
  readonly stable: boolean;
  readonly lacks: string | null;
  readonly fails_in: string | null;
}): 'kept' | 'narrow' | 'weak' | 'broken' {
  if (lacks === null) return 'kept';
  if (fails_in !== null) return 'narrow';
  return stable ? 'weak' : 'broken';
}

/** What keeps a cell from being acceptable, as one letter; a dot where nothing does. */
export function letterOf(cell: GainsCell & { readonly fails_in?: string | null }, a: Acceptance): string {
  if (cell.reason !== null) return '?';
  if (!cell.stable) return 'U';
  const key = missed(cell, a);
  if (key !== undefined) return criteria[key].letter;
  return (cell.fails_in ?? null) === null ? '·' : 'c';
}

export const letterWords =
  '· acceptable, U unstable, d damping, m share loop margin, s settling, o overshoot, e steady error, c not in every circumstance, ? no numbers';
