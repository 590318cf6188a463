import { BadInput } from '../../problem.ts';
import { bandwidthOfRate } from './bandwidth.ts';
import { channelQuality, rangeOf } from './channel-quality.ts';
import type { Columns } from './choose-columns.ts';
import { type Cleaned, clean } from './clean.ts';
import { type Clock, isoOf } from './clock.ts';
import { editsOf } from './edits.ts';
import { type Gap, gapsOf, mergeGaps } from './gaps.ts';
import type { RecordedLoad } from './recorded-load.ts';
import { cut, type Series, trapezoid_J } from './series.ts';
import { sumChannels } from './sum-channels.ts';
import type { RowTaker } from './take-rows.ts';

export interface Parts {
  readonly file: string;
  readonly sha256: string;
  readonly line: number;
  readonly columns: Columns;
  readonly clock: Clock;
  readonly taker: RowTaker;
  readonly inferred: readonly string[];
  /** Start that the file itself states, for relative stamps. */
  readonly start: string | null;
}

/** Channels of a sensible recording: beyond this the channel column holds something else. */
const mostChannels = 1024;

type Refuse = (found: string, expected: string, mend: string) => never;

/** Makes a recorded load and its quality statement of the rows taken. */
export function assemble(parts: Parts): RecordedLoad {
  const { taker, columns, file, line } = parts;
  const refuse: Refuse = (found, expected, mend) => {
    throw new BadInput([{ severity: 'error', file, line, found, expected, mend }]);
  };
  refuseUnclearCells(taker, columns, refuse);
  const named = [...taker.channels].sort(([a], [b]) => (a < b ? -1 : 1));
  const cleaned = named.map(([name, samples]) => ({ name, ...clean(samples) }));
  refuseThin(taker, cleaned, columns, refuse);

  const first = Math.min(...cleaned.map((c) => c.series.time_s[0]!));
  for (const { series } of cleaned) {
    const { time_s } = series;
    if (first !== 0) for (let i = 0; i < time_s.length; i++) time_s[i]! -= first;
  }
  const last = Math.max(...cleaned.map((c) => endOf(c.series)));
  const total = cleaned.length === 1 ? cleaned[0]!.series : sumChannels(cleaned.map((c) => c.series));
  if (total === null) {
    return refuse(
      `channels that never run at the same time: ${cleaned.map((c) => c.name).join(', ')}`,
      'channels of one and the same time, so that they can be summed',
      'give one channel of the file, or --channel none',
    );
  }
  const channels = cleaned.map((c) => channelQuality(c.name, c.series));
  const slowest_s = Math.max(...channels.map((c) => c.interval_median_s));
  const gaps = mergeGaps(cleaned.flatMap((c) => gapsOf(c.series)));
  const from_s = total.time_s[0]!;
  const to_s = endOf(total);
  const energy_J = trapezoid_J(total.time_s, total.power_W);
  const inferred = [...parts.inferred, ...remarks(parts)];
  return {
    channels: cleaned.map(({ name, series }) => ({ name, series })),
    total,
    statement: {
      file,
      sha256: parts.sha256,
      rows: taker.rows,
      channels,
      start: startOf(parts, first),
      duration_s: last,
      rate_median_Hz: 1 / slowest_s,
      bandwidth_Hz: bandwidthOfRate / slowest_s,
      gaps_count: gaps.length,
      gap_total_s: gaps.reduce((sum, gap) => sum + (gap.to_s - gap.from_s), 0),
      duplicates_count: sum(cleaned, (c) => c.duplicates),
      unsorted_count: taker.unsorted,
      edits: editsOf(taker, cleaned, gaps, gapEnergy_J(cleaned, gaps), {
        ...joined(cleaned, from_s, to_s),
        after_J: energy_J,
      }),
      total: { from_s, to_s, mean_W: energy_J / (to_s - from_s), ...rangeOf(total.power_W), energy_J },
      inferred,
    },
  };
}

function refuseUnclearCells(taker: RowTaker, columns: Columns, refuse: Refuse): void {
  const names = columns.powers.map((p) => p.name).join(', ');
  if (taker.cellsWithComma > 0 && taker.commasUnclear) {
    refuse(
      `numbers in ${names} such as 12,345, which may be thousands or decimals`,
      'numbers with a decimal point',
      'write the powers with a decimal point, without marks for thousands',
    );
  }
  if (taker.cellsWithoutUnit > 0) {
    refuse(
      `column ${names} without a unit`,
      'power in µW, mW, W, kW or MW',
      'give --unit UNIT, for example --unit W',
    );
  }
}

type Named = Cleaned & { readonly name: string };

function refuseThin(taker: RowTaker, cleaned: readonly Named[], columns: Columns, refuse: Refuse): void {
  const usable = sum(cleaned, (c) => c.series.time_s.length);
  if (usable === 0) {
    const d = taker.dropped;
    refuse(
      `${taker.rows} rows, none usable: ${d.badStamp} bad stamps, ${d.emptyPower} empty and ${d.textPower} non-numeric powers, ${d.wrongWidth} rows too wide, ${sum(cleaned, (c) => c.negatives)} negative powers`,
      'rows with a stamp and a power of 0 or more',
      'check the export, or give --time COLUMN and --power COLUMN',
    );
  }
  if (columns.channel !== null && cleaned.length > mostChannels) {
    refuse(
      `${cleaned.length} different values in column ${columns.channel.name}`,
      `a column that names at most ${mostChannels} channels`,
      'give --channel COLUMN or --channel none',
    );
  }
  const thin = cleaned.filter((c) => c.series.time_s.length < 2);
  if (thin.length > 0) {
    refuse(
      cleaned.length === 1
        ? 'one usable row'
        : `one usable row in channel ${thin.map((c) => c.name).join(', ')}`,
      'at least two rows with different stamps in each channel',
      'record for longer, or check which column names the channel',
    );
  }
  const mixed =
    sum(cleaned, (c) => c.conflicts) > 0.1 * usable || taker.unsorted > Math.max(10, 0.01 * usable);
  if (mixed && columns.channel === null && !columns.channelDenied && columns.unused.length > 0) {
    const options = columns.unused.map((name) => `--channel ${name}`).join(' or ');
    refuse(
      `rows that read like several channels mixed, and no column known to name them`,
      'a column that names the channel of each row',
      `give ${options} or --channel none`,
    );
  }
}

function endOf(series: Series): number {
  return series.time_s[series.time_s.length - 1]!;
}

function startOf(parts: Parts, first_s: number): string | null {
  const start = parts.clock.start;
  return start === null ? parts.start : isoOf(start.whole_s, start.part_s + first_s);
}

function remarks({ taker, clock, columns }: Parts): string[] {
  const lines: string[] = [];
  if (clock.zoneless) lines.push('Dates without a zone are read as UTC.');
  if (taker.cellsWithUnit > 0) lines.push(`Power cells carry their unit (${taker.cellsWithUnit} cells).`);
  if (taker.cellsWithComma > 0)
    lines.push(`Commas in powers are decimal commas (${taker.cellsWithComma} cells).`);
  if (columns.unused.length > 0) lines.push(`Not used: ${columns.unused.join(', ')}.`);
  return lines;
}

/** Energy that lies in the bridged gaps, by the straight lines [J]. */
function gapEnergy_J(cleaned: readonly Named[], gaps: readonly Gap[]): number {
  if (gaps.length === 0) return 0;
  return sum(cleaned, ({ series }) =>
    gapsOf(series).reduce((energy, gap) => {
      const part = cut(series, gap.from_s, gap.to_s);
      return energy + trapezoid_J(part.time_s, part.power_W);
    }, 0),
  );
}

/** Energy of the channels over their own spans, and what lies outside the span they share. */
function joined(cleaned: readonly Named[], from_s: number, to_s: number) {
  const cut_s = Math.max(
    ...cleaned.map((c) => Math.max(from_s - c.series.time_s[0]!, endOf(c.series) - to_s)),
  );
  return { channels_J: sum(cleaned, (c) => c.merged_J), cut_s };
}

function sum<T>(items: readonly T[], of: (item: T) => number): number {
  return items.reduce((total, item) => total + of(item), 0);
}
