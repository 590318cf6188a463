/** Runs with waveforms going out: into parts beside their places, which become the files when the run is whole. */

import { type Over, Part } from '../../disk/part.ts';
import type { WaveformFiles } from '../../export/save-waveforms.ts';
import type { TableForm } from '../../export/table.ts';
import type { Judged } from './run-apart.ts';

/** `run` gets the places to write to. Where it is stopped or fails, nothing is left of them. */
export async function withParts<T extends Judged>(
  asked: Omit<WaveformFiles, 'files'>,
  files: readonly { readonly form: TableForm; readonly target: string }[],
  over: Over,
  run: (waveforms: WaveformFiles) => Promise<T>,
): Promise<T> {
  const parts = files.map(({ form, target }) => {
    const part = new Part(target, 'file', over);
    return { form, target, part, path: part.path };
  });
  try {
    const ran = await run({
      ...asked,
      files: parts.map(({ form, target, path }) => ({ form, target, path })),
    });
    if (ran.report.status !== 'stopped') for (const { part } of parts) part.keep();
    return ran;
  } finally {
    for (const { part } of parts) part.drop();
  }
}
