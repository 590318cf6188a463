/**
 * The one description of a bundle, used by writer, reader and page: which files a run is kept in and how the
 * two binary ones are laid out. A bundle is a directory; every file is summed in the manifest, the manifest in itself.
 */
import type { Report } from '../analysis/judge/report.ts';
import type { Channel } from '../channels/channel.ts';
import type { Result } from '../engine/result.ts';
import type { RunRequest } from '../request/run-request.ts';
import type { Scenario } from '../scenario/scenario.ts';

/** A run whole: the judged report, the result it was judged on, the scenario. */
export interface JudgedRun {
  readonly report: Report;
  readonly result: Result;
  readonly scenario: Scenario;
}

/** A run as it is kept, with what made it. */
export interface Bundle extends JudgedRun {
  readonly provenance: Provenance;
}

/** What a run was made from, and by what: enough to make it again. */
export interface Provenance {
  readonly request: RunRequest;
  /** Every file that was read, in the order of reading. */
  readonly inputs: readonly KeptInput[];
  readonly build: Build;
}

/** What ran. Two builds may rightly give two results; the tool's version alone does not tell them apart. */
export interface Build {
  /** SHA-256 over the project's own source files. */
  readonly source_sha256: string;
  readonly node_version: string;
}

/** An input of a run: its bytes as they were read, or those bytes gzipped. */
export interface KeptInput extends InputEntry {
  readonly content: Uint8Array;
}

/**
 * Written into every manifest. A reader refuses another name or another version: bundles of version 1 hold neither
 * the text of their inputs nor what was asked for, those of version 2 neither means nor close-ups, those of version 3 not how
 * long the stays lasted that ran when the window began and ended.
 */
export const formatName = 'buswake-bundle';
export const formatVersion = 4;

/** The files, each with what it holds. `manifest.json` and the inputs stand beside them. */
export const contents = {
  'request.json': 'the request: scenario, changes, recording, waivers, day, options',
  'report.json': 'the judged run: verdict, findings, metrics',
  'scenario.json': 'the validated scenario in SI, with where each value came from',
  'readings.json': 'status, window, extremes, sharing, energy and work counters of the run',
  'log.json': 'what happened, in time order',
  'wake.f32':
    'the recording: smallest, largest and mean value of every channel per bucket of time, and close-ups',
  'streams.f64': 'uniform streams, window means and stays beyond voltage levels',
} as const;

export type FileName = keyof typeof contents;

export const fileNames: readonly FileName[] = Object.keys(contents) as FileName[];

export const manifestName = 'manifest.json';

/** Folder of the inputs' texts within a bundle, and what a file in it may be called. */
export const inputsFolder = 'inputs';
export const inputFile = /^inputs\/\d{2,}-[\w.-]+$/;

/**
 * `wake.f32`, little-endian, without padding. As float64 [s]: `buckets + 1` edges, then the moments of each close-up. As
 * float32: for each channel in order `buckets` smallest, largest and mean values; then for each close-up, for each
 * channel, its value at each moment.
 */
export interface WakeLayout {
  readonly buckets: number;
  readonly channels: readonly Channel[];
  /** How many moments each stretch has that is kept step by step. */
  readonly close_ups: readonly number[];
}

/** One column of `streams.f64`: columns follow each other as little-endian float64. */
export interface ColumnLayout {
  readonly name: string;
  readonly length: number;
}

/** One input: under which path it was read, and where in the bundle its bytes are. */
export interface InputEntry {
  /** As the request and the inputs themselves name it; relative, unless an input's own text names it absolutely. */
  readonly path: string;
  /** Of its bytes as they were read. */
  readonly sha256: string;
  readonly file: string;
  readonly gzip: boolean;
}

export interface FileEntry {
  readonly name: string;
  readonly holds: string;
  readonly bytes: number;
  readonly sha256: string;
}

export interface Manifest {
  readonly format: string;
  readonly version: number;
  readonly tool_version: string;
  readonly build: Build;
  readonly byte_order: 'little-endian';
  readonly wake: WakeLayout;
  readonly columns: readonly ColumnLayout[];
  readonly inputs: readonly InputEntry[];
  /** Every other file of the bundle, those of the inputs included. */
  readonly files: readonly FileEntry[];
}

/** A bundle as bytes, before the manifest's sums are known. */
export interface Encoded {
  readonly wake: WakeLayout;
  readonly columns: readonly ColumnLayout[];
  readonly inputs: readonly InputEntry[];
  readonly files: ReadonlyMap<string, Uint8Array>;
}

/** Length that `wake.f32` must have [bytes]. */
export function wakeBytes(layout: WakeLayout): number {
  const { buckets, channels, close_ups } = layout;
  const moments = close_ups.reduce((sum, count) => sum + count, 0);
  return 8 * (buckets + 1 + moments) + 4 * channels.length * (3 * buckets + moments);
}

/** Length that `streams.f64` must have [bytes]. */
export function columnBytes(layout: readonly ColumnLayout[]): number {
  return layout.reduce((sum, column) => sum + 8 * column.length, 0);
}
