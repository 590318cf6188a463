/**
 * The one description of a bundle, used by writer, reader and page: which files a run is kept in and how the
 * two binary ones are laid out. A bundle is a directory; every file but the manifest is summed in it.
 */
import type { Report } from '../analysis/report.ts';
import type { Channel } from '../channels/channel.ts';
import type { Result } from '../engine/result.ts';
import type { Scenario } from '../scenario/scenario.ts';

/** A run as it is kept: the judged report, the result it was judged on, the scenario that made it. */
export interface Bundle {
  readonly report: Report;
  readonly result: Result;
  readonly scenario: Scenario;
}

/** Written into every manifest. A reader refuses another name or a later version. */
export const formatName = 'buswake-bundle';
export const formatVersion = 1;

/** The files, each with what it holds. `manifest.json` stands beside them. */
export const contents = {
  'report.json': 'the judged run: verdict, findings, metrics',
  'scenario.json': 'the validated scenario in SI, with where each value came from',
  'readings.json': 'status, window, extremes, sharing, energy and work counters of the run',
  'log.json': 'what happened, in time order',
  'wake.f32': 'the recording: smallest and largest value of every channel per bucket of time',
  'streams.f64': 'uniform streams, window means and stays beyond voltage levels',
} as const;

export type FileName = keyof typeof contents;

export const fileNames: readonly FileName[] = Object.keys(contents) as FileName[];

export const manifestName = 'manifest.json';

/**
 * `wake.f32`, little-endian, without padding: `buckets + 1` edges [s] as float64; then for each channel in
 * order `buckets` smallest values, and `buckets` largest values, as float32.
 */
export interface WakeLayout {
  readonly buckets: number;
  readonly channels: readonly Channel[];
}

/** One column of `streams.f64`: columns follow each other as little-endian float64. */
export interface ColumnLayout {
  readonly name: string;
  readonly length: number;
}

export interface FileEntry {
  readonly name: FileName;
  readonly holds: string;
  readonly bytes: number;
  readonly sha256: string;
}

export interface Manifest {
  readonly format: string;
  readonly version: number;
  readonly tool_version: string;
  readonly byte_order: 'little-endian';
  readonly wake: WakeLayout;
  readonly columns: readonly ColumnLayout[];
  readonly files: readonly FileEntry[];
}

/** A bundle as bytes, before the manifest's sums are known. */
export interface Encoded {
  readonly wake: WakeLayout;
  readonly columns: readonly ColumnLayout[];
  readonly files: ReadonlyMap<FileName, Uint8Array>;
}

/** Length that `wake.f32` must have [bytes]. */
export function wakeBytes(layout: WakeLayout): number {
  return 8 * (layout.buckets + 1) + 8 * layout.buckets * layout.channels.length;
}

/** Length that `streams.f64` must have [bytes]. */
export function columnBytes(layout: readonly ColumnLayout[]): number {
  return layout.reduce((sum, column) => sum + 8 * column.length, 0);
}
