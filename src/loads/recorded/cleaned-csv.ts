import { textCell } from '../../base/csv-cell.ts';
import type { RecordedLoad } from './recorded-load.ts';

/** Rows in one piece of text. */
const rowsPerPiece = 4000;

/**
 * The cleaned recording as text that reads back the same, but for an apostrophe before a channel that a spreadsheet would
 * take for a formula, in pieces: long form, sorted, seconds from the first
 * stamp and watts in full digits, the start as a comment where it is known.
 */
export function* cleanedPieces(load: RecordedLoad): Generator<string> {
  const { start } = load.statement;
  let lines = [...(start === null ? [] : [`# start ${start}`]), 'time_s,channel,power_W'];
  const channels = load.channels.map(({ name, series }) => ({ name: textCell(name), series, at: 0 }));
  for (;;) {
    let next: (typeof channels)[number] | null = null;
    for (const channel of channels) {
      if (channel.at >= channel.series.time_s.length) continue;
      if (next === null || channel.series.time_s[channel.at]! < next.series.time_s[next.at]!) next = channel;
    }
    if (next === null) break;
    // Shortest digits that read back to the same bits.
    lines.push(`${next.series.time_s[next.at]!},${next.name},${next.series.power_W[next.at]!}`);
    next.at++;
    if (lines.length >= rowsPerPiece) {
      yield `${lines.join('\n')}\n`;
      lines = [];
    }
  }
  if (lines.length > 0) yield `${lines.join('\n')}\n`;
}

/** The cleaned recording as one text. */
export function cleanedCsv(load: RecordedLoad): string {
  return [...cleanedPieces(load)].join('');
}
