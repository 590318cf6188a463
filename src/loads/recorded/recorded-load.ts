import type { Gap } from '../../samples/gaps.ts';
import type { Series } from '../../samples/series.ts';
import type { QualityStatement } from './statement.ts';

/** A recording as read and cleaned: channels on their own stamps and their sum. Time counts from its first stamp. */
export interface RecordedLoad {
  readonly statement: QualityStatement;
  readonly channels: readonly { readonly name: string; readonly series: Series }[];
  readonly total: Series;
  /** Spans in which at least one channel has a gap, rising: the total bridges them by straight lines. */
  readonly gaps: readonly Gap[];
  /** The gaps of each channel by itself. */
  readonly bridged: readonly Bridged[];
}

/** The gaps of one channel, rising, and its share of the mean power of all. */
export interface Bridged {
  readonly share_ratio: number;
  readonly gaps: readonly Gap[];
}
