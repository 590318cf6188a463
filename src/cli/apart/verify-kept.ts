/** A kept run, run again in a thread of its own from what it holds, and compared bit for bit. */
import { thisBuild } from '../../bundle/build.ts';
import { decodeProvenance } from '../../bundle/decode.ts';
import { bundleDifferences } from '../../bundle/differences.ts';
import { type BundleFiles, unlisted } from '../../bundle/read.ts';
import { rerunOf } from '../../bundle/run-again.ts';
import type { Verification } from '../../bundle/verification.ts';
import { shippedLimitsText } from '../../shipped/shipped-limits.ts';
import { typed } from '../options/typed-options.ts';
import { Progress } from '../terminal/progress.ts';
import { withThread } from './run-apart.ts';

/** Null where the run was stopped. Throws BadInput where what is kept in `dir` cannot be run. */
export async function verifyKept(
  dir: string,
  kept: BundleFiles,
  quiet: boolean,
): Promise<Verification | null> {
  const provenance = decodeProvenance(kept.manifest, kept.files);
  const here = thisBuild();
  const { rerun, report, result } = await withThread(async (thread) => {
    const rerun = await typed(() => rerunOf(provenance, shippedLimitsText()));
    const { scenario, recorded, measured } = rerun;
    const progress = new Progress(`${scenario.id} again`, quiet);
    const { doubt } = provenance.request;
    const ran = await typed(() =>
      thread.run({ scenario, recorded, doubt, measured }, (fraction) => progress.at(fraction)),
    ).finally(() => progress.clear());
    return { rerun, ...ran };
  });
  if (report.status === 'stopped') return null;
  const files = bundleDifferences(kept, rerun.bundleOf(report, result));
  const { build } = provenance;
  return {
    schema_version: 1,
    bundle: dir,
    same: files.every(({ differences_count }) => differences_count === 0),
    build: {
      kept: build,
      here,
      same: build.source_sha256 === here.source_sha256 && build.node_version === here.node_version,
    },
    request: provenance.request,
    inputs_count: provenance.inputs.length,
    summary: report.summary,
    files,
    not_compared: unlisted(dir, kept.manifest),
  };
}
