import type { RecordedLoad } from './recorded-load.ts';

/**
 * The cleaned recording as text that reads back the same: long form, sorted, seconds from the first stamp and watts
 * in full digits, the start as a comment where it is known.
 */
export function cleanedCsv(load: RecordedLoad): string {
  const { start } = load.statement;
  const rows: { readonly t: number; readonly channel: string; readonly p: number }[] = [];
  for (const { name, series } of load.channels) {
    for (let i = 0; i < series.time_s.length; i++) {
      rows.push({ t: series.time_s[i]!, channel: name, p: series.power_W[i]! });
    }
  }
  rows.sort((a, b) => a.t - b.t || (a.channel < b.channel ? -1 : 1));
  const lines = rows.map(({ t, channel, p }) => `${plain(t)},${quoted(channel)},${plain(p)}`);
  const head = [...(start === null ? [] : [`# start ${start}`]), 'time_s,channel,power_W'];
  return `${[...head, ...lines].join('\n')}\n`;
}

/** Shortest digits that read back to the same bits. */
function plain(value: number): string {
  return String(value);
}

function quoted(name: string): string {
  return /[",\n]/.test(name) ? `"${name.replaceAll('"', '""')}"` : name;
}
