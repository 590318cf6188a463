import { textCell } from '../../base/csv-cell.ts';
import { meant, roundingOf } from '../../base/meant.ts';
import { namedQuantity } from '../../tables/columns/named-quantity.ts';
import { type HowRecorded, linesOf } from './how-recorded.ts';
import type { RecordedLoad } from './recorded-load.ts';

/** Rows in one piece of text. */
const rowsPerPiece = 4000;

/**
 * The cleaned recording as text that reads back the same, but for an apostrophe before a channel that a spreadsheet would
 * take for a formula, in pieces: long form, sorted, seconds from the first
 * stamp and watts in full digits. Where a gap was bridged a row without a power stands in its middle, which reads as a
 * gap again. Above it stand the start, where it is known, and how it was recorded.
 */
export function* cleanedPieces(load: RecordedLoad, how: HowRecorded): Generator<string> {
  const { start } = load.statement;
  let lines = [
    ...(start === null ? [] : [`# start ${start}`]),
    ...linesOf(how).map((line) => `# ${line}`),
    'time_s,channel,power_W',
  ];
  const waiting = load.channels.map(({ name }, k) => {
    const rows = rowsOf(load, k);
    return { name: textCell(asPower(name)), rows, row: rows.next() };
  });
  for (;;) {
    let next: (typeof waiting)[number] | null = null;
    for (const channel of waiting) {
      if (channel.row.done) continue;
      if (next === null || next.row.done || channel.row.value.time_s < next.row.value.time_s) next = channel;
    }
    if (next === null || next.row.done) break;
    const { time_s, power } = next.row.value;
    lines.push(`${time_s},${next.name},${power}`);
    next.row = next.rows.next();
    if (lines.length >= rowsPerPiece) {
      yield `${lines.join('\n')}\n`;
      lines = [];
    }
  }
  if (lines.length > 0) yield `${lines.join('\n')}\n`;
}

/** Of a current times its voltage the power is written: a channel called after the current would be read as one. */
function asPower(name: string): string {
  const says = namedQuantity(name);
  return says === null || says.of === 'power' ? name : `${name}_power_W`;
}

interface Row {
  readonly time_s: number;
  /** Shortest digits that read back to the same bits; empty in a gap. */
  readonly power: string;
}

/** Samples of one channel by rising stamps, and in the middle of each of its gaps one without a power. */
function* rowsOf({ channels, bridged }: RecordedLoad, k: number): Generator<Row, void> {
  const { time_s, power_W } = channels[k]!.series;
  const { gaps } = bridged[k]!;
  let gap = 0;
  for (let i = 0; i < time_s.length; i++) {
    yield { time_s: time_s[i]!, power: String(power_W[i]!) };
    if (gaps[gap]?.from_s !== time_s[i]) continue;
    const twice_s = gaps[gap]!.from_s + gaps[gap]!.to_s;
    yield { time_s: meant(0.5 * twice_s, roundingOf(twice_s)), power: '' };
    gap++;
  }
}

/** The cleaned recording as one text. */
export function cleanedCsv(load: RecordedLoad, how: HowRecorded): string {
  return [...cleanedPieces(load, how)].join('');
}
