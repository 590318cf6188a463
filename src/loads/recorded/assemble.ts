import { BadInput } from '../../base/problem.ts';
import { clean } from '../../samples/clean.ts';
import { countFrom } from '../../samples/count-from.ts';
import { gapsOf, mergeGaps } from '../../samples/gaps.ts';
import { missingRows } from '../../samples/missing-rows.ts';
import { endOf, firstAbove, trapezoid_J } from '../../samples/series.ts';
import { clippedBelow } from '../../samples/signs/clipped-below.ts';
import { farBelowZero } from '../../samples/signs/far-below-zero.ts';
import { hurried } from '../../samples/signs/hurried.ts';
import { signsOf } from '../../samples/signs/signs-of.ts';
import { stillBeside } from '../../samples/signs/still.ts';
import { sumRow } from '../../samples/sum-row.ts';
import { type Aligned, alignChannels } from './align-channels.ts';
import { channelQuality, powerRange } from './channel-quality.ts';
import { meetCombined, meetContradictions, meetLabels, sampled } from './contradictions.ts';
import { editsOf, warningsOf } from './edits.ts';
import { gapEnergy_J, joined } from './energies.ts';
import { howRecorded, toldAveraging, toldReading, toldWarnings } from './how-recorded.ts';
import { bridgedBy } from './invented.ts';
import type { NamedChannel, Parts, Refuse } from './read-parts.ts';
import type { RecordedLoad } from './recorded-load.ts';
import {
  refuseJumps,
  refuseMixedZones,
  refuseScattered,
  refuseShared,
  refuseThin,
  refuseUnclearCells,
} from './refuse-rows.ts';
import { shortRows } from './short-rows.ts';
import { shownOver } from './shown-over.ts';
import { startOf } from './start-of.ts';
import { meetAveraging, refuseAveraging, shortAveraging } from './stated-averaging.ts';
import { type StatedPlace, statedPlace } from './stated-place.ts';
import { sumChannels } from './sum-channels.ts';
import { remarks } from './taken-for-granted.ts';
import { tooLittle } from './too-little.ts';
import { unlikelyVoltage } from './unlikely-voltage.ts';

/** Makes a recorded load and its quality statement of the rows taken. */
export function assemble(asked: Parts): RecordedLoad {
  const { taker, columns, file, table } = asked;
  const { others: about, ...how } = howRecorded(table.about);
  const parts = { ...asked, reading: toldReading(asked.reading, how) };
  const refuse: Refuse = (found, expected, mend) => {
    throw new BadInput([{ severity: 'error', file, line: table.line, found, expected, mend }]);
  };
  refuseUnclearCells(taker, columns, parts.reading.decimal, refuse);
  meetContradictions(parts, refuse);
  meetLabels(parts, refuse);
  meetAveraging(asked.reading, how, parts.overruled, refuse);
  const named = [...taker.channels].sort(([a], [b]) => (a < b ? -1 : 1));
  const origin_s = Math.min(0, taker.earliest_s);
  let cleaned = named.map(([name, samples]) => ({ name, ...clean(samples, origin_s) }));
  refuseMixedZones(parts, refuse);
  refuseThin(taker, cleaned, columns, refuse);
  refuseJumps(parts, cleaned, refuse);
  refuseShared(cleaned, columns, parts.reading.sort, refuse);
  const gapsIn = cleaned.map((c) => gapsOf(c.series, c.lost));
  refuseScattered(cleaned, gapsIn, refuse);
  const aligned = parts.reading.align ? alignChannels(cleaned) : [];
  const alignment = aligned.map((one) => one.alignment);
  cleaned = cleaned.map((c, k) => (aligned[k - 1]?.alignment.moved ? moved(c, aligned[k - 1]!) : c));

  const first = Math.min(...cleaned.map((c) => c.series.time_s[0]!));
  if (first !== 0)
    for (const { time_s } of cleaned.flatMap(({ series, below }) => [series, below]))
      countFrom(first, time_s);
  const last = Math.max(...cleaned.map((c) => endOf(c.series)));
  meetCombined(cleaned.map(sampled), parts, refuse);
  const voltages = taker.factors.voltages();
  const { signs: own, remarks: repeats } = signsOf(cleaned.map(sampled));
  const more = [
    ...cleaned.flatMap((channel) => [
      ...clippedBelow(sampled(channel)),
      ...farBelowZero(sampled(channel), channel.below),
    ]),
    ...stillBeside(cleaned.map(sampled), own),
    ...hurried(cleaned.map(sampled)),
  ];
  // What a current or its voltage shows, their product shows in the wrong column and unit.
  const ofFactors = taker.factors.signs(first + origin_s);
  const ofProducts = [...own, ...more].filter(({ kind }) => !ofFactors.some((sign) => sign.kind === kind));
  const signs = [...ofProducts, ...ofFactors];
  const total = cleaned.length === 1 ? cleaned[0]!.series : sumChannels(cleaned.map((c) => c.series));
  if (total === null) {
    return refuse(
      `channels that never run at the same time: ${cleaned.map((c) => c.name).join(', ')}`,
      'channels of one and the same time, so that they can be summed',
      'give one channel of the file, or --channel none',
    );
  }
  const ownGaps = cleaned.map((c) => gapsOf(c.series, c.lost));
  const channels = cleaned.map((c, k) => channelQuality(c.name, c.series, ownGaps[k]!));
  const slowest_s = Math.max(...channels.map((c) => c.interval_median_s));
  refuseAveraging(parts.reading, last, refuse);
  const shown = shownOver(channels, slowest_s, parts.reading);
  const gaps = mergeGaps(ownGaps.flat());
  const gap_total_s = gaps.reduce((all, gap) => all + (gap.to_s - gap.from_s), 0);
  const from_s = total.time_s[0]!;
  const to_s = endOf(total);
  const energy_J = trapezoid_J(total.time_s, total.power_W);
  const edits = editsOf(taker, table, cleaned, gaps, gapEnergy_J(cleaned, ownGaps), {
    ...joined(cleaned, from_s, to_s),
    after_J: energy_J,
  });
  const interval_mean_s = Math.max(...channels.map((c) => c.interval_mean_s));
  const missing = missingRows(
    { ...table, about },
    { rows: taker.rows, interval_s: interval_mean_s, duration_s: last },
    cleaned.map(({ name, series }, k) => ({ name, time_s: series.time_s, gaps: ownGaps[k]! })),
  );
  const inferred = [
    ...parts.inferred,
    ...remarks(parts),
    ...toldAveraging(how, asked.reading),
    ...shortAveraging(parts.reading, slowest_s),
    ...missing.remarks,
    ...repeats,
  ];
  const place = statedPlace(how, columns.powers.map((p) => p.name).concat(columns.channel?.name ?? []));
  return {
    channels: cleaned.map(({ name, series }) => ({ name, series })),
    total,
    gaps,
    bridged: bridgedBy(
      cleaned.map(({ series }) => series),
      ownGaps,
    ),
    statement: {
      file,
      sha256: parts.sha256,
      rows: taker.rows,
      channels,
      place,
      how,
      start: startOf(parts, first + origin_s),
      duration_s: last,
      rate_median_Hz: 1 / slowest_s,
      rate_mean_Hz: 1 / interval_mean_s,
      ...shown,
      coverage_ratio: 1 - gap_total_s / last,
      gaps_count: gaps.length,
      gap_total_s,
      alignment,
      duplicates_count: sum(cleaned, (c) => c.duplicates),
      unsorted_count: taker.order.unsorted,
      edits,
      signs: signs.filter(({ kind }) => kind !== 'smoothed' || !isToldSlow(parts, slowest_s)),
      // What was known of a cleaned recording its rows may show again, in the same words.
      warnings: unlike([
        ...toldWarnings(how, asked.reading),
        ...parts.overruled.sentences,
        ...table.lost.warning(taker.rows + table.unreadable),
        ...shortRows(taker),
        ...againstCurrent(parts, place),
        ...voltages.flatMap((voltage) => unlikelyVoltage(voltage.name, voltage, isAlternating(parts, place))),
        ...missing.warnings,
        ...cleaned.flatMap(({ name, series }) =>
          sumRow(name, series.power_W, sampled({ name, series }).written),
        ),
        ...tooLittle(
          cleaned.map(({ name }) => name),
          total,
        ),
        ...warningsOf(edits),
      ]),
      total: { from_s, to_s, mean_W: energy_J / (to_s - from_s), ...powerRange(total.power_W), energy_J },
      inferred,
    },
  };
}

/** A stated averaging time of several intervals is what smoothed samples would be asked for. */
function isToldSlow({ reading }: Parts, interval_s: number): boolean {
  return (reading.averaging_s ?? 0) > 2 * interval_s;
}

function againstCurrent(parts: Parts, place: StatedPlace): string[] {
  const names = parts.columns.powers.map((p) => p.name).join(' + ');
  return parts.taker.against?.warning(names, isAlternating(parts, place)) ?? [];
}

function isAlternating({ reading }: Parts, { side }: StatedPlace): boolean {
  return reading.side === 'ac' || side?.is === 'ac';
}

function unlike(sentences: readonly string[]): string[] {
  return [...new Set(sentences)];
}

/** A channel moved in time; places of lost samples move with those before them. */
function moved(channel: NamedChannel, { series, alignment }: Aligned): NamedChannel {
  const before = channel.series;
  const places = channel.lost.map((i) => firstAbove(series.time_s, before.time_s[i]! - alignment.lag_s) - 1);
  const lost = places.filter((i) => i >= 0 && i + 1 < series.time_s.length);
  const { time_s, values } = channel.below;
  const below = { time_s: time_s.map((t) => t - alignment.lag_s), values };
  return { ...channel, series, below, lost };
}

function sum<T>(items: readonly T[], of: (item: T) => number): number {
  return items.reduce((total, item) => total + of(item), 0);
}
