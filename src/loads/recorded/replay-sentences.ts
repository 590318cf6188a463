import { counted } from '../../base/counted.ts';
import { formatQuantity } from '../../base/quantity.ts';
import { signSentence } from '../../samples/signs/sign.ts';
import type { LoadSpec } from '../../scenario/scenario.ts';
import { leastConfidence } from './align-channels.ts';
import { missedPeak, missesPeak, type Played } from './played.ts';
import type { RecordedLoad } from './recorded-load.ts';
import type { Alignment, Edit } from './statement.ts';

/** What a replay was made of, as the sentences need it. */
export interface Replay {
  readonly load: RecordedLoad;
  readonly spec: Extract<LoadSpec, { kind: 'recorded' }>;
  readonly scale: number;
  readonly recordedPeak_W: number;
  readonly held_s: number;
  /** Energy of the stretch, scaled: of the recording and of the curve on ticks [J]. */
  readonly before_J: number;
  readonly after_J: number;
  readonly rounding_s: number;
  readonly duration_s: number;
  readonly sumPeak_W: number;
  readonly delays_s: readonly number[];
  readonly seam_W: number;
  readonly played: Played | null;
}

const shownBy = {
  rate: 'the rate',
  'mean rate': 'the mean rate',
  renewal: 'the rate at which values renew',
  averaging: 'one over the averaging time',
  'AC side': 'what a power supply lets through, 5 Hz assumed',
} as const;

const measuredAt = { device: 'at the devices', sled: 'at a sled', rack: 'at a rack' } as const;

/** The head of a replay report, one fact a sentence. */
export function replaySentences(replay: Replay): string[] {
  const { load, spec } = replay;
  const s = load.statement;
  const { from_s, to_s, reading } = spec;
  const lines = [
    `Recorded load ${s.file}, SHA-256 ${s.sha256}.`,
    `${s.rows} rows, ${counted(s.channels.length, 'channel')} (${s.channels.map((c) => c.name).join(', ')}), measured ${measuredAt[reading.at]} on the ${reading.side.toUpperCase()} side${s.start === null ? '' : `, from ${s.start}`}.`,
    `Median rate ${digits(s.rate_median_Hz)} Hz. Content above ${digits(s.bandwidth_Hz)} Hz (0.44 of ${shownBy[s.bandwidth_by]}, where a mean over that time has lost 3 dB) is not shown: limits that need it are inconclusive.`,
    `Played from ${digits(from_s)} s to ${digits(to_s)} s of the recording; the run uses ${digits(replay.duration_s)} s of ${digits(to_s - from_s)} s.`,
    ...(replay.played === null || !missesPeak(replay.played)
      ? []
      : [missedPeak(replay.played, 'a start at')]),
    scaleSentence(replay),
    ...coincidenceSentences(replay),
  ];
  if (spec.loop) {
    lines.push(
      `Played again and again: each turn closes with a seam of ${formatQuantity(replay.seam_W, 'power', 3)} over ${formatQuantity(1 / s.rate_median_Hz, 'time', 3)}.`,
    );
  }
  if (spec.edges === 'sharp') {
    lines.push(
      `Read sharp: steps that keep the energy of each sample, with edges of ${formatQuantity(spec.edge_s, 'time', 3)} (shorter where samples are closer).`,
    );
  }
  if (reading.side === 'ac') {
    lines.push(
      'Recorded on the AC side and accepted for the DC load: losses of the power supply are in it, and what its bulk capacitors filter is not.',
    );
  }
  if (reading.smoothed) {
    lines.push('Other smoothing was on while recording: the load itself swings more than shown.');
  }
  if (replay.held_s > 0) {
    lines.push(
      `${formatQuantity(replay.held_s, 'time', 3)} at the ends, where not all channels run, hold the nearest total.`,
    );
  }
  lines.push(
    `Stamps are rounded to ticks by at most ${formatQuantity(replay.rounding_s, 'time', 3)}; energy of the stretch ${energy(replay.before_J)} before and ${energy(replay.after_J)} after.`,
  );
  lines.push(...s.signs.map((sign) => `Suspect: ${signSentence(sign)}`));
  lines.push(...s.warnings.map((line) => `Warning: ${line}`));
  lines.push(...s.alignment.map(alignmentSentence), ...s.edits.map(editSentence));
  if (s.edits.length === 0) lines.push('Nothing was edited.');
  return lines;
}

function scaleSentence({ spec, scale, recordedPeak_W }: Replay): string {
  const { copies } = spec.reading;
  const peak = `${formatQuantity(recordedPeak_W, 'power', 4)}, its highest from ${digits(spec.from_s)} s to ${digits(spec.to_s)} s, becomes ${formatQuantity(recordedPeak_W * scale, 'power', 4)}`;
  const stands =
    copies === null
      ? `it represents ${digits(scale)} copies of the whole recording`
      : `it represents ${counted(copies, 'copy', 'copies')} of the whole recording${scale === copies ? '' : `, each scaled by ${digits(scale / copies)}`}`;
  return `Scaled by ${digits(scale)}: ${peak}; ${stands}.`;
}

function coincidenceSentences({ spec, delays_s, seam_W, sumPeak_W, load }: Replay): string[] {
  switch (spec.reading.coincidence) {
    case 'together':
      return ['All copies run in step (together).'];
    case 'worst':
      return [
        'All copies run in step (worst): no other timing of the copies swings more, so this is the upper bound.',
      ];
    case 'spread':
      return [
        `Each sled plays the stretch with its own seeded cyclic offset (spread): ${delays_s.map((d) => d.toFixed(3)).join(', ')} s. The highest total is ${formatQuantity(sumPeak_W, 'power', 4)}.`,
        `Each turn closes with a seam of ${formatQuantity(seam_W, 'power', 3)} over ${formatQuantity(1 / load.statement.rate_median_Hz, 'time', 3)}.`,
      ];
    default:
      throw new RangeError(`unknown coincidence ${spec.reading.coincidence satisfies never}`);
  }
}

/** How a channel was laid onto the first, as a sentence. */
export function alignmentSentence(a: Alignment): string {
  if (a.correlation_ratio === 0)
    return `Alignment: ${a.channel} cannot be compared with the first channel and stays.`;
  const late = `${formatQuantity(Math.abs(a.lag_s), 'time', 3)} ${a.lag_s < 0 ? 'early' : 'late'}`;
  const sure = `correlation ${a.correlation_ratio.toFixed(3)}, confidence ${a.confidence_ratio.toFixed(2)}`;
  return a.moved
    ? `Alignment: ${a.channel} was ${late} against the first channel (${sure}) and is moved: where it no longer reaches, it holds its last value; energy ${energy(a.energy_before_J)} before, ${energy(a.energy_after_J)} after.`
    : `Alignment: ${a.channel} seems ${late} (${sure}), too unsure or too far to move it: that takes a confidence of ${leastConfidence}, and a lag below a twentieth of the recording.`;
}

/** One edit as a sentence with the energy of the recording before and after it. */
export function editSentence(edit: Edit): string {
  return `Edited: ${edit.count} ${edit.what}; energy ${energy(edit.energy_before_J)} before, ${energy(edit.energy_after_J)} after.`;
}

function energy(value_J: number): string {
  return formatQuantity(value_J, 'energy', 6);
}

function digits(value: number): string {
  return String(Number(value.toPrecision(5)));
}
