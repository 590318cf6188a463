/** What rows and cells were taken to mean, a sentence each. */
import type { Parts } from './read-parts.ts';

const samplesAre = {
  means: 'Each sample is the mean over its interval, as stated.',
  instants:
    'Each sample is the value at its stamp, as stated: what the load did between two of them is not in it, swings faster than half the rate may show as slow ones, and the energy is only as good as that.',
} as const;

export function remarks({ taker, clock, columns, reading, overruled }: Parts): string[] {
  const lines: string[] = [];
  lines.push(...taker.sentinels.unmet());
  if (clock.zoneless) lines.push('Dates without a zone are read as UTC.');
  if (taker.cellsWithUnit > 0) lines.push(`Power cells carry their unit (${taker.cellsWithUnit} cells).`);
  const decimalCommas = taker.marks.decimal + taker.marks.open;
  if (decimalCommas > 0) lines.push(`Commas in powers are decimal commas (${decimalCommas} cells).`);
  if (taker.marks.thousands > 0) {
    lines.push(`Commas in powers part thousands (${taker.marks.thousands} cells).`);
  }
  const pointed = taker.marks['pointed-thousands'];
  if (pointed > 0) lines.push(`Points in powers part thousands (${pointed} cells).`);
  if (reading.samples !== null) lines.push(samplesAre[reading.samples]);
  if (reading.sort && taker.order.unsorted === 0)
    lines.push('No stamp jumps back: there was nothing to sort (--sort).');
  if (reading.overrule && overruled.sentences.length === 0)
    lines.push(
      'Nothing of the file speaks against what is stated: there was nothing to overrule (--overrule).',
    );
  if (reading.align && taker.channels.size === 1)
    lines.push('There is one channel: there was nothing to align (--align).');
  if (reading.fresh) {
    lines.push(
      'Repeated values are taken for the load itself, as asked (--fresh): how often the sensor renews bounds nothing.',
    );
  }
  if (clock.dayOnly) lines.push('Stamps are times of day; they run on at midnight.');
  if (columns.rows.length > 0) {
    const told = columns.rows.map(({ name, value }) => `${name} is ${value}`).join(' and ');
    lines.push(`Rows where ${told}: ${taker.rows - taker.elsewhere} of ${taker.rows}.`);
  }
  if (columns.unused.length > 0) lines.push(`Not used: ${columns.unused.join(', ')}.`);
  return lines;
}
