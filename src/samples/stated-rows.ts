/** What a file says of its own rows above them: how often, how many, how long. */
import { counted } from '../base/counted.ts';
import { formatQuantity, readQuantity } from '../base/quantity.ts';

/** What the rows are. */
export interface RowsHeld {
  readonly rows: number;
  /** Mean interval outside gaps, of the slowest channel [s]. */
  readonly interval_s: number;
  readonly duration_s: number;
}

/** A rate is another one from this share on. */
const alike_ratio = 0.05;

const rate =
  /\b(?:sampl\w*[\s_-]*(?:rate|frequency|freq)?|(?:data|log|logging|update|output)?[\s_-]*rate|fs)\b\D{0,12}?([\d.]+\s*(?:[kM]?Hz|[kM]?S\/s))/i;
const interval =
  /\b(?:sampl\w*[\s_-]*(?:interval|period|time)|(?:time|x)[\s_-]*(?:step|increment)|(?:log|logging)?[\s_-]*interval|every|dt)\b\D{0,12}?([\d.]+\s*(?:[nuµm]?s|min)\b)/i;
const count =
  /^(?:(?:number[\s_-]*of|n|no)[\s_.-]*)?(?:rows|samples|points|records|record[\s_-]*length)\s*[:=,;\s]\s*(\d+)$|^(\d+)\s+(?:rows|samples|points|records)$/i;
const duration = /\b(?:duration|recording[\s_-]*(?:length|time))\b\D{0,12}?([\d.]+\s*(?:ms|s|min|h)\b)/i;

/** A sentence for each statement that the rows do not keep. */
export function unkeptStatements(about: readonly string[], held: RowsHeld): string[] {
  return about.flatMap((text) => [
    ...unkeptInterval(text, held),
    ...unkeptCount(text, held),
    ...unkeptDuration(text, held),
  ]);
}

function unkeptInterval(text: string, { interval_s }: RowsHeld): string[] {
  const often = rate.exec(text)?.[1]?.replace(/S\/s$/i, 'Hz');
  const apart = interval.exec(text)?.[1];
  const rate_Hz = often === undefined ? null : valueIn(often, 'frequency');
  const stated_s = rate_Hz === null ? (apart === undefined ? null : valueIn(apart, 'time')) : 1 / rate_Hz;
  if (stated_s === null || !(stated_s > 0) || Math.abs(interval_s / stated_s - 1) < alike_ratio) return [];
  const [stated, real] = [stated_s, interval_s].map((t) => formatQuantity(t, 'time', 4));
  const why =
    interval_s > stated_s ? 'rows are missing, or stamps are in another unit' : 'stamps are in another unit';
  return [`The file says "${text}", a row every ${stated}, and its rows are ${real} apart: ${why}.`];
}

function unkeptCount(text: string, { rows }: RowsHeld): string[] {
  const found = count.exec(text);
  const stated = found === null ? 0 : Number(found[1] ?? found[2]);
  return stated > rows
    ? [`The file says "${text}" and holds ${counted(rows, 'row')}: ${stated - rows} are missing.`]
    : [];
}

function unkeptDuration(text: string, { duration_s, interval_s }: RowsHeld): string[] {
  const words = duration.exec(text)?.[1];
  const stated_s = words === undefined ? null : valueIn(words, 'time');
  // As long as the rows last, the interval of the last one included.
  if (stated_s === null || stated_s - duration_s < 2 * interval_s + 0.01 * stated_s) return [];
  return [
    `The file says "${text}" and its stamps span ${formatQuantity(duration_s, 'time', 4)}: rows are missing.`,
  ];
}

function valueIn(words: string, dimension: 'frequency' | 'time'): number | null {
  const read = readQuantity(words.trim(), dimension);
  return read.ok ? read.value : null;
}
