/** `buswake verify`: a kept run, run again from what it holds. */
import { Command } from 'commander';
import { readBundleFiles } from '../../bundle/read.ts';
import { quotedPlace } from '../../studies/trials/replay.ts';
import { verifyKept } from '../apart/verify-kept.ts';
import { jsonText } from '../disk/study-files.ts';
import { refuseStudyDir } from '../disk/study-folder.ts';
import { exit } from '../exit.ts';
import { jsonOption } from '../options/shared-options.ts';
import { paintFor } from '../terminal/paint.ts';
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
  refuseStudyDir(dir);
  const verification = await verifyKept(dir, readBundleFiles(dir), options.quiet === true);
  if (verification === null) {
    process.exitCode = exit.stopped;
    process.stderr.write('Stopped; nothing was compared.\n');
    return;
  }
  process.exitCode = verification.same ? exit.passed : exit.failed;
  process.stdout.write(
    options.json === true
      ? jsonText(verification)
      : `${verificationText(verification, options.quiet === true, paintFor(process.stdout, options.color))}\n${verification.same && options.quiet !== true ? `next  see it: buswake view ${quotedPlace(dir)}\n` : ''}`,
  );
}
