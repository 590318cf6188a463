/**
 * What a replay takes for granted or chooses. Conditions: the DC side where nobody stated it or an AC recording stands
 * for it (a power supply's filtering and losses are then guessed), a stretch that misses the recording's peak, copies
 * spread in time (swings fall with it), values that are said to be fresh (a bandwidth the file does not show), a
 * recording taken behind other smoothing, what its samples show of being wrong, and what the reading itself warns of. The place of measurement, copies in
 * step (no timing swings more) and one reading between samples are told: what the file cannot show is inconclusive
 * by itself.
 */
import { formatPercent } from '../../base/quantity.ts';
import { inventedRatio } from '../../loads/recorded/invented.ts';
import { missedPeak, missedSwing, missesPeak, missesSwing, playedOf } from '../../loads/recorded/played.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import { alignmentSentence } from '../../loads/recorded/replay-sentences.ts';
import type { SignKind } from '../../samples/signs/sign.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import type { BasisEntry } from '../basis.ts';
import type { Stated } from '../record/stated.ts';
import { entry, seconds, writtenBy } from './entry.ts';

export function replayBasis(scenario: Stated, recorded: RecordedLoad | null): BasisEntry[] {
  const { load } = scenario;
  if (load.kind !== 'recorded') return [];
  const by = (key: string): string | null => writtenBy(scenario, `load.${key}`);
  return [
    ...stretchBasis(scenario, recorded),
    ...placeBasis(load.reading, by),
    ...readingBasis(load.reading, by),
    ...alignedBasis(load.reading, recorded, by),
    ...edgesBasis(load, by),
    ...(recorded?.statement.signs ?? []).map(({ shows, asks }) =>
      entry('warned', shows, { by: recorded!.statement.file, reason: asks, conditions: true }),
    ),
    ...(recorded?.statement.warnings ?? []).map((what) =>
      entry('warned', what, { by: recorded!.statement.file, conditions: true }),
    ),
    ...(recorded?.statement.inferred ?? []).map((what) =>
      entry('assumed', what, { by: recorded!.statement.file }),
    ),
  ];
}

type By = (key: string) => string | null;

function stretchBasis(scenario: Stated, recorded: RecordedLoad | null): BasisEntry[] {
  const { load, duration_s } = scenario;
  const played = load.kind === 'recorded' && recorded !== null ? playedOf(recorded, load, duration_s) : null;
  if (played === null) return [];
  const { from_s, to_s } = played;
  const whole_s = recorded!.statement.duration_s;
  const by = writtenBy(scenario, 'load.from');
  const bridged = bridgedBasis(recorded!, from_s, to_s);
  const part = `plays ${seconds(from_s)} to ${seconds(to_s)} of ${seconds(whole_s)} recorded`;
  if (!missesPeak(played) && !missesSwing(played)) return [entry('chosen', part, { by }), ...bridged];
  if (!missesPeak(played)) {
    const isSuspect = recorded!.statement.signs.some(
      (sign) => flattens.has(sign.kind) && sign.from_s < to_s && sign.to_s > from_s,
    );
    const what = `${part}, a calm stretch of it${isSuspect ? ', by samples that are suspect themselves' : ''}`;
    return [entry('chosen', what, { by, reason: missedSwing(played), conditions: true }), ...bridged];
  }
  return [
    entry('chosen', `${part}, which misses its peak`, {
      by,
      reason: missedPeak(played, '--from'),
      conditions: true,
    }),
    ...bridged,
  ];
}

/** Signs of samples that show less than the load did. */
const flattens: ReadonlySet<SignKind> = new Set(['clipped', 'frozen', 'smoothed', 'zeros']);

/** Gaps of the stretch that is played: what happened in them nobody recorded, an edge plays as a slope. */
function bridgedBasis(recorded: RecordedLoad, from_s: number, to_s: number): BasisEntry[] {
  const { gaps, statement } = recorded;
  const inside = gaps.filter((gap) => gap.to_s > from_s && gap.from_s < to_s);
  if (inside.length === 0) return [];
  const all_s = inside.reduce((sum, gap) => sum + Math.min(gap.to_s, to_s) - Math.max(gap.from_s, from_s), 0);
  const some = inside.length === 1 ? 'a gap' : `${inside.length} gaps`;
  return [
    entry('warned', `${some} of the recording, ${seconds(all_s)} in all, bridged by straight lines`, {
      by: statement.file,
      reason: `nothing was recorded there: an edge plays as a slope; of the load that is played ${formatPercent(inventedRatio(recorded, from_s, to_s), 2)} was never recorded`,
      conditions: true,
    }),
  ];
}

function placeBasis({ at, side, samples, coincidence, accept_ac }: RecordedReading, by: By): BasisEntry[] {
  const assumed = (what: string, key: string, conditions: boolean): BasisEntry[] =>
    by(`reading.${key}`) === null
      ? [entry('assumed', what, { reason: `not stated (--${key})`, conditions })]
      : [];
  const accepted = side === 'ac' && accept_ac;
  return [
    ...(accepted
      ? [
          entry('chosen', 'an AC recording is used as the DC load', {
            by: by('reading.accept_ac'),
            reason: "the power supply's losses are in it, what its capacitors filter is not",
            conditions: true,
          }),
        ]
      : assumed(`recorded on the ${side.toUpperCase()} side`, 'side', true)),
    ...(samples === 'instants'
      ? [
          entry('chosen', 'samples are instants', {
            by: by('reading.samples'),
            reason: 'swings faster than half the rate may show as slow ones',
            conditions: true,
          }),
        ]
      : assumed('each sample a mean over its interval', 'samples', false)),
    ...assumed(`recorded at the ${at}`, 'at', false),
    ...(coincidence === 'spread'
      ? [entry('chosen', 'copies spread in time', { by: by('reading.coincidence'), conditions: true })]
      : assumed('copies in step', 'coincidence', false)),
  ];
}

function readingBasis(reading: RecordedReading, by: By): BasisEntry[] {
  const chosen = (key: 'fresh' | 'sort' | 'smoothed', what: string, conditions: boolean): BasisEntry[] =>
    reading[key] ? [entry('chosen', what, { by: by(`reading.${key}`), conditions })] : [];
  return [
    ...chosen('fresh', 'repeated values are taken for the load itself, not a slow sensor', true),
    ...chosen('smoothed', 'recorded behind other smoothing: the load itself swings more', true),
    ...chosen('sort', 'rows are put in the order of their stamps', false),
  ];
}

/** What aligning did to each channel but the first. */
function alignedBasis({ align }: RecordedReading, recorded: RecordedLoad | null, by: By): BasisEntry[] {
  if (!align) return [];
  const done = recorded?.statement.alignment ?? [];
  const moved = done.filter((one) => one.moved).map(({ channel }) => channel);
  const what = moved.length === 0 ? 'channels stay as recorded' : `shifted in time: ${moved.join(', ')}`;
  return [
    entry('chosen', `aligning channels: ${what}`, {
      by: by('reading.align'),
      reason: done.length === 0 ? null : done.map(alignmentSentence).join(' '),
    }),
  ];
}

/** Where both readings are asked for, each run has its own and the basis ends up with the two. */
function edgesBasis(load: Extract<Stated['load'], { kind: 'recorded' }>, by: By): BasisEntry[] {
  const how =
    load.edges === 'sharp' ? `in steps, with edges of ${seconds(load.edge_s)}` : 'in straight lines';
  const kind = by('edges') === null ? 'assumed' : 'chosen';
  return [
    entry(kind, `read ${how} between samples`, { by: by('edges') }),
    ...(load.loop
      ? [entry('chosen', 'the stretch is played again and again, with a seam each time', { by: by('loop') })]
      : []),
  ];
}
