/** Rows that no recording can be made of: unclear, too few, mixed, scattered over years, or two times over each other. */
import { counted } from '../../base/counted.ts';
import { formatQuantity } from '../../base/quantity.ts';
import type { Gap } from '../../samples/gaps.ts';
import { rangeOf } from '../../samples/range.ts';
import { scattered } from '../../samples/scattered.ts';
import { medianInterval_s } from '../../samples/series.ts';
import { farBelow, isOneValue } from '../../samples/signs/far-below-zero.ts';
import { runsAgain, summerTimeLeft } from '../../samples/stamp-order.ts';
import { listed } from '../../scenario/text/nearest.ts';
import type { Decimal } from '../../tables/cells/number-cell.ts';
import type { ChosenColumns } from './choose-columns.ts';
import type { NamedChannel, Parts, Refuse } from './read-parts.ts';
import type { RowTaker } from './take-rows.ts';

/** Channels of a sensible recording: beyond this the channel column holds something else. */
const mostChannels = 1024;

export function refuseUnclearCells(
  taker: RowTaker,
  columns: ChosenColumns,
  decimal: Decimal,
  refuse: Refuse,
): void {
  const names = columns.powers.map((p) => p.name).join(', ');
  const marks = taker.marks.unclear(names) ?? taker.marks.idle(decimal, names);
  if (marks !== null) refuse(marks.found, 'commas and points that mean one thing', marks.mend);
  const current = columns.powers.some((p) => p.voltage !== null);
  if (taker.cellsWithoutUnit > 0) {
    refuse(
      `column ${names} without a unit`,
      current ? 'current in mA, A or kA' : 'power in µW, mW, W, kW or MW',
      `give --unit UNIT, for example --unit ${current ? 'A' : 'W'}`,
    );
  }
}

export function refuseThin(
  taker: RowTaker,
  cleaned: readonly NamedChannel[],
  columns: ChosenColumns,
  refuse: Refuse,
): void {
  const usable = sum(cleaned, (c) => c.series.time_s.length);
  if (usable === 0) {
    const d = taker.dropped;
    refuse(
      `${counted(taker.rows, 'row')}, none usable: ${listed(
        [
          counted(d.badStamp, 'bad stamp'),
          counted(d.emptyPower, 'empty power'),
          counted(d.textPower, 'power that is no number', 'powers that are no numbers'),
          counted(
            taker.sentinels.count,
            'value that stands for no reading',
            'values that stand for no reading',
          ),
          counted(d.absurdPower, 'power beyond 1e12 W', 'powers beyond 1e12 W'),
          counted(taker.elsewhere, 'row that --where leaves out', 'rows that --where leaves out'),
          counted(d.wrongWidth, 'row too wide', 'rows too wide'),
          counted(
            sum(cleaned, ({ below }) => below.values.length),
            'negative power',
          ),
        ].filter((words) => !words.startsWith('0 ')),
        'and',
      )}`,
      'rows with a stamp and a power of 0 or more',
      sum(cleaned, ({ below }) => below.values.length) >= taker.rows
        ? 'turn the sign of the powers in the export, if it counts what is drawn as negative'
        : 'check the export, or give --time COLUMN and --power COLUMN',
    );
  }
  if (columns.channel !== null && cleaned.length > mostChannels) {
    refuse(
      `${cleaned.length} different values in column ${columns.channel.name}`,
      `a column that names at most ${mostChannels} channels`,
      'give --channel COLUMN or --channel none',
    );
  }
  refuseNegative(cleaned, refuse);
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
  const mixed = taker.order.unsorted > Math.max(10, 0.01 * usable);
  if (mixed && columns.channel === null && !columns.channelDenied && columns.unused.length > 0) {
    const options = columns.unused.map((name) => `--channel ${name}`).join(' or ');
    refuse(
      `rows that read like several channels mixed, and no column known to name them`,
      'a column that names the channel of each row',
      `give ${options} or --channel none`,
    );
  }
}

/**
 * Stamps that were rounded are a channel's own; more samples of one stamp are another channel, or a clock that stood still.
 * Who lays two times over each other (`sorted`) has said what they are, unless a column may name channels.
 */
export function refuseShared(
  cleaned: readonly NamedChannel[],
  { channel, channelDenied, unused }: ChosenColumns,
  sorted: boolean,
  refuse: Refuse,
): void {
  const mayName = channel === null && unused.length > 0;
  if (channelDenied || (sorted && !mayName)) return;
  const samples = sum(cleaned, (c) => c.series.time_s.length + c.duplicates);
  const conflicts = sum(cleaned, (c) => c.conflicts);
  const many = Math.max(10, 0.01 * samples);
  if (conflicts <= (mayName ? Math.min(0.1 * samples, many) : many)) return;
  const rounded = '--channel none where the stamps of one channel are rounded, which takes the mean of each';
  const options = unused.map((name) => `--channel ${name}, `).join('');
  refuse(
    `${conflicts} of ${samples} samples at a stamp${channel === null ? '' : ` of one ${channel.name}`} that has another value already`,
    'one value of each channel at each stamp: two are summed where they are two devices, and one is wrong where a clock stood still',
    channel === null
      ? `give ${options}or ${rounded}`.replace('give or ', 'give ')
      : `name devices by a column that tells them all apart, or give ${rounded}`,
  );
}

/** Far below 0 in more than so many samples and such a share of them a power is no disturbance. */
const mostDeep = 5;
const mostDeep_ratio = 1e-3;

/**
 * A channel that counts what is drawn as negative would be left out, all but a few samples of noise; of one whose register wraps
 * the peaks would be. One value again and again is a number that stands for no reading, and is told as that.
 */
function refuseNegative(cleaned: readonly NamedChannel[], refuse: Refuse): void {
  for (const { name, below, series, duplicates } of cleaned) {
    const negatives = below.values.length;
    const all = negatives + series.time_s.length + duplicates;
    const far = farBelow(below, Math.max(0, rangeOf(series.power_W).highest));
    const isDeep = negatives > Math.max(mostDeep, mostDeep_ratio * all) && !isOneValue(far);
    if (2 * negatives <= all && !isDeep) continue;
    refuse(
      `negative powers in ${negatives} of ${counted(all, 'sample')} of ${name}, down to ${formatQuantity(rangeOf(below.values).lowest, 'power', 4)}`,
      'powers of 0 or more, as a load draws them',
      2 * negatives > all
        ? `turn the sign of ${name} in the export, if it counts what is drawn as negative`
        : `add the span of its register in the export where it wraps (16 bits go on at −32768 behind 32767), leave the rows out there where the load gave power back, or state each number that means no reading (--sentinel VALUE)`,
    );
  }
}

export function refuseScattered(
  cleaned: readonly NamedChannel[],
  gaps: readonly (readonly Gap[])[],
  refuse: Refuse,
): void {
  cleaned.forEach(({ name, series }, k) => {
    const wrong = scattered(name, series.time_s, gaps[k]!);
    if (wrong !== null) refuse(wrong.found, wrong.expected, wrong.mend);
  });
}

/** Dates without a zone are read as UTC: beside dates of another zone they would lie hours off. */
export function refuseMixedZones({ clock, columns }: Parts, refuse: Refuse): void {
  if (clock.zoned && clock.zoneless)
    refuse(
      `dates with a zone and dates without one in column ${columns.time.name}`,
      'dates that all carry their zone, or none of which does',
      'write the zone of every date in the export',
    );
}

/** A clock that was put back lays two times of the recording over each other: sorting would mix them. */
export function refuseJumps(
  { taker, clock, reading }: Parts,
  cleaned: readonly NamedChannel[],
  refuse: Refuse,
): void {
  if (reading.sort) return;
  const left = summerTimeLeft(taker.order, clock.zoneless);
  if (left !== null)
    refuse(
      left.found,
      left.expected,
      'export the stamps in UTC, or give --sort where the rows are merely out of order',
    );
  for (const { name, runs, series } of cleaned) {
    const again = runsAgain(name, runs, medianInterval_s(series.time_s));
    if (again !== null)
      refuse(
        again.found,
        again.expected,
        'split the file there, name the column of channels by --channel, or give --sort to lay them over each other',
      );
  }
}

function sum<T>(items: readonly T[], of: (item: T) => number): number {
  return items.reduce((total, item) => total + of(item), 0);
}
