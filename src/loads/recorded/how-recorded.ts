/**
 * How a recording was made, and what its reader was warned of, as lines above its rows: `# averaging 1 s`. Written into a
 * cleaned recording and read from any, so that what is known of a recording stays with it.
 */
import { formatQuantity, readQuantity } from '../../base/quantity.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';

export interface HowRecorded {
  readonly averaging_s: number | null;
  readonly samples: RecordedReading['samples'];
  readonly side: RecordedReading['side'] | null;
  readonly at: RecordedReading['at'] | null;
  readonly fresh: boolean;
  readonly smoothed: boolean;
  /** Sentences of whoever read the recording before. */
  readonly warned: readonly string[];
}

/** More warnings than this are counted: of the lines above the rows a reader keeps a few dozen. */
const mostWarned = 30;

/** Lines above the rows, without their mark. */
export function linesOf(how: HowRecorded): string[] {
  const { warned } = how;
  const more = warned.length - mostWarned;
  return [
    ...(how.averaging_s === null ? [] : [`averaging ${how.averaging_s} s`]),
    ...(how.samples === null ? [] : [`samples ${how.samples}`]),
    ...(how.side === null ? [] : [`side ${how.side}`]),
    ...(how.at === null ? [] : [`at ${how.at}`]),
    ...(how.fresh ? ['fresh'] : []),
    ...(how.smoothed ? ['smoothed'] : []),
    ...warned.slice(0, mostWarned).map((sentence) => `warned ${sentence}`),
    ...(more > 0 ? [`warned There are ${more} more warnings of the recording that this was made of.`] : []),
  ];
}

/** What such lines say, and the lines that say none of it. */
export function howRecorded(about: readonly string[]): HowRecorded & { readonly others: readonly string[] } {
  const taken = new Set<string>();
  const said = (form: RegExp): string[] =>
    about.flatMap((line) => {
      const found = form.exec(line);
      if (found !== null) taken.add(line);
      return found === null ? [] : [found[1] ?? ''];
    });
  const times = said(/^averaging\s*[:=]?\s*(\S.*)$/i).flatMap((text) => {
    const read = readQuantity(text.trim(), 'time');
    return read.ok && read.value > 0 ? [read.value] : [];
  });
  const first = <T extends string>(key: string, words: readonly T[]): T | null =>
    words.find((word) => said(new RegExp(`^${key}${word}$`)).length > 0) ?? null;
  const how: HowRecorded = {
    averaging_s: times.length === 0 ? null : Math.max(...times),
    samples: first('samples ', ['instants', 'means']),
    side: first('side ', ['ac', 'dc']),
    at: first('at ', ['device', 'sled', 'rack']),
    fresh: first('', ['fresh']) !== null,
    smoothed: first('', ['smoothed']) !== null,
    warned: said(/^warned (.+)$/),
  };
  return { ...how, others: about.filter((line) => !taken.has(line)) };
}

/** The reading that options ask for, with what the file says of itself where they say nothing. */
export function toldReading(reading: RecordedReading, how: HowRecorded): RecordedReading {
  return {
    ...reading,
    averaging_s: reading.averaging_s ?? how.averaging_s,
    samples: reading.samples ?? how.samples,
    fresh: reading.fresh || how.fresh,
  };
}

/** A sentence for each thing that the file says of itself and that no option said: each weakens what it shows. */
export function toldWarnings(how: HowRecorded, reading: RecordedReading): string[] {
  return [
    ...(how.samples === 'instants' && reading.samples === null
      ? [
          'The file says that its samples are instants: swings faster than half the rate may show as slow ones.',
        ]
      : []),
    ...(how.fresh && !reading.fresh
      ? ['The file says that repeated values are the load itself, not a slow sensor.']
      : []),
    ...(how.smoothed && !reading.smoothed
      ? ['The file says that other smoothing was on while recording: the load itself swings more.']
      : []),
    ...how.warned,
  ];
}

/** A sentence where the averaging time is the file's own. */
export function toldAveraging(how: HowRecorded, reading: RecordedReading): string[] {
  if (how.averaging_s === null || reading.averaging_s !== null) return [];
  return [`Each sample is a mean over ${formatQuantity(how.averaging_s, 'time', 4)}, as the file says.`];
}
