/** The load section of a scenario that a recording and its reading stand for. */
import type { RecordedLoad } from '../loads/recorded/recorded-load.ts';
import { playableSpan } from '../loads/recorded/stretch.ts';
import type { AskedLoad } from './run-request.ts';

/** Keys of a `recorded` load, and of its reading as `reading.unit` and so on: the whole recording is played. */
export function loadWords({ file, reading }: AskedLoad, recorded: RecordedLoad): Record<string, string> {
  const span = playableSpan(recorded);
  const words: Record<string, string> = {
    file,
    from: `${span.from_s} s`,
    to: `${span.to_s} s`,
    'reading.at': reading.at,
    'reading.side': reading.side,
    'reading.coincidence': reading.coincidence,
    'reading.smoothed': String(reading.smoothed),
  };
  if (reading.time !== null) words['reading.time'] = reading.time;
  if (reading.power.length > 0) words['reading.power'] = reading.power.join(', ');
  if (reading.current.length > 0) words['reading.current'] = reading.current.join(', ');
  if (reading.voltage !== null) words['reading.voltage'] = reading.voltage;
  if (reading.dates !== null) words['reading.dates'] = reading.dates;
  if (reading.decimal !== null) words['reading.decimal'] = reading.decimal;
  if (reading.averaging_s !== null) words['reading.averaging'] = `${reading.averaging_s} s`;
  if (reading.samples !== null) words['reading.samples'] = reading.samples;
  if (reading.sentinel.length > 0) words['reading.sentinel'] = reading.sentinel.join(', ');
  for (const key of ['fresh', 'sort', 'align', 'overrule', 'accept_ac'] as const) {
    if (reading[key]) words[`reading.${key}`] = 'true';
  }
  if (reading.channel !== null) words['reading.channel'] = reading.channel;
  if (reading.where.length > 0) words['reading.where'] = reading.where.join(', ');
  if (reading.unit !== null) words['reading.unit'] = reading.unit;
  if (reading.copies !== null) words['reading.copies'] = String(reading.copies);
  return words;
}
