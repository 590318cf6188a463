/** `buswake verify`: a kept run, run again from what it holds. */

import { Command } from 'commander';
import { thisBuild } from '../../bundle/build.ts';
import { decodeProvenance } from '../../bundle/decode.ts';
import { bundleDifferences } from '../../bundle/differences.ts';
import { readBundleFiles, unlisted } from '../../bundle/read.ts';
import { rerunOf } from '../../bundle/run-again.ts';
import type { Verification } from '../../bundle/verification.ts';
import { shippedLimits } from '../../shipped/shipped-limits.ts';
import { quoted } from '../../studies/trials/replay.ts';
import { withThread } from '../apart/run-apart.ts';
import { jsonText } from '../disk/study-files.ts';
import { exit } from '../exit.ts';
import { jsonOption } from '../options/shared-options.ts';
import { typed } from '../options/typed-options.ts';
import { paintFor } from '../terminal/paint.ts';
import { Progress } from '../terminal/progress.ts';
import { verificationText } from '../terminal/verify-text.ts';

interface VerifyOptions {
  readonly quiet?: boolean;
  readonly json?: boolean;
  readonly color: boolean;
}

const examples = `Examples:
  buswake run pulse-train --out out/run
  buswake verify out/run
`;

/** `verify DIR`: exit code 0 where report, channels and streams are the same bit for bit, 4 where something differs. */
export function verifyCommand(): Command {
  return new Command('verify')
    .argument('<dir>', 'directory that `run --out` wrote')
    .option('-q, --quiet', 'print one line')
    .addOption(jsonOption())
    .option('--no-color', 'no colour')
    .addHelpText('before', examples)
    .action(verifyAndPrint);
}

async function verifyAndPrint(dir: string, options: VerifyOptions): Promise<void> {
  const verification = await verify(dir, options.quiet === true);
  if (verification === null) {
    process.exitCode = exit.stopped;
    process.stderr.write('Stopped; nothing was compared.\n');
    return;
  }
  process.exitCode = verification.same ? exit.passed : exit.failed;
  process.stdout.write(
    options.json === true
      ? jsonText(verification)
      : `${verificationText(verification, options.quiet === true, paintFor(process.stdout, options.color))}\n${verification.same && options.quiet !== true ? `next  see it: buswake view ${quoted(dir)}\n` : ''}`,
  );
}

/** Null where the run was stopped. Throws BadInput where the bundle is not whole or cannot be run. */
async function verify(dir: string, quiet: boolean): Promise<Verification | null> {
  const kept = readBundleFiles(dir);
  const provenance = decodeProvenance(kept.manifest, kept.files);
  const here = thisBuild();
  const { rerun, report, result } = await withThread(async (thread) => {
    const rerun = await typed(() => rerunOf(provenance, shippedLimits()));
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
