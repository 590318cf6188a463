/** A kept run made again from what it holds, with its waveforms going out. */
import { join } from 'node:path';
import { type BundleBytes, bundleDifferences } from '../../bundle/differences.ts';
import type { Provenance } from '../../bundle/format.ts';
import { rerunOf } from '../../bundle/run-again.ts';
import type { Pace } from '../../engine/meters/waveforms.ts';
import type { ExportStretch } from '../../export/stretch.ts';
import type { TableForm } from '../../export/table.ts';
import { shippedLimitsText } from '../../shipped/shipped-limits.ts';
import { typed } from '../options/typed-options.ts';
import { askedSeries, type PaceOptions, refuseBothEdges } from '../options/waveform-options.ts';
import { Progress } from '../terminal/progress.ts';
import { waveformLines } from '../terminal/waveform-lines.ts';
import { withThread } from './run-apart.ts';

export interface AgainOrder {
  readonly files: BundleBytes;
  readonly provenance: Provenance;
  readonly pace: Pace;
  readonly stretch: ExportStretch;
  readonly folder: string;
  readonly options: PaceOptions & { readonly form: TableForm; readonly quiet?: boolean };
}

export interface StepsAgain {
  /** The run made again is the kept one, bit for bit. */
  readonly same: boolean;
  readonly rows: number;
  /** What was written, and where it is not of the kept run. */
  readonly lines: readonly string[];
}

/** Null where it was stopped. Throws BadInput where the bundle cannot be run. */
export async function stepsAgain(order: AgainOrder): Promise<StepsAgain | null> {
  const { files, provenance, pace, stretch, folder, options } = order;
  const rerun = await typed(() => rerunOf(provenance, shippedLimitsText()));
  const { scenario, recorded, measured } = rerun;
  refuseBothEdges(scenario);
  const series = askedSeries(scenario, options);
  const target = `${pace.kind === 'every-step' ? 'steps' : 'samples'}.${options.form}`;
  const file = { form: options.form, path: join(folder, target), target };
  const progress = new Progress(`${scenario.id} again`, options.quiet === true);
  const { doubt } = provenance.request;
  const waveforms = { series, pace, stretch, files: [file] };
  const { report, result, rows } = await withThread((thread) =>
    thread.run({ scenario, recorded, doubt, measured, waveforms }, (fraction) => progress.at(fraction)),
  ).finally(() => progress.clear());
  if (report.status === 'stopped') return null;
  const differ = bundleDifferences(files, rerun.bundleOf(report, result)).filter(
    ({ differences_count }) => differences_count > 0,
  );
  const same = differ.length === 0;
  if (!same)
    process.stderr.write(
      `The run made again is not the kept one: ${differ.map(({ name }) => name).join(', ')} differ. buswake verify says where.\n`,
    );
  return { same, rows, lines: waveformLines({ series, pace }, [file], rows) };
}
