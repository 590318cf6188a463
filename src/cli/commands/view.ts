/** `buswake view`: the page on a kept run. */
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Command } from 'commander';
import { BadInput } from '../../base/problem.ts';
import { readBundleFiles } from '../../bundle/read.ts';
import { refuseExisting, writeWhole } from '../../disk/write-file.ts';
import { verifyKept } from '../apart/verify-kept.ts';
import { exit } from '../exit.ts';
import { needs, onDiskAlone, ruled } from '../options/rules/rule.ts';
import { makePage } from '../pages/page.ts';
import { isStudyDir, makeStudyPage } from '../pages/study-page.ts';
import { paintFor } from '../terminal/paint.ts';
import { verificationText } from '../terminal/verify-text.ts';

interface ViewOptions {
  readonly oneFile?: string;
  readonly verify?: boolean;
  readonly force?: boolean;
  readonly json?: boolean;
}

const examples = `Examples:
  buswake view out/run
  buswake view out/run --one-file run.html
  buswake view out/run --verify
`;

/** Writes `DIR/page.html`, or one file wherever it is asked for; both open from disk without a server. */
export function viewCommand(): Command {
  const command = new Command('view')
    .argument('<dir>', 'directory that `run --out` or a study wrote')
    .option('--one-file <file>', 'write the page there instead of DIR/page.html')
    .option('--verify', 'run it again first: the page says that it came out the same')
    .option('--force', 'overwrite the file that --one-file names')
    .option('--json', 'print one JSON document')
    .addHelpText('before', examples)
    .action(view);
  return ruled(command, [
    onDiskAlone('--one-file'),
    needs(
      '--force',
      ['--one-file'],
      'a file that it may overwrite: the page in DIR is made anew',
      'leave it out',
    ),
  ]);
}

async function view(dir: string, { oneFile, verify, force, json }: ViewOptions): Promise<void> {
  const path = resolve(oneFile ?? join(dir, 'page.html'));
  if (oneFile !== undefined) refuseExisting(oneFile, force === true);
  const page = isStudyDir(dir) ? studyPage(dir, verify === true) : await runPage(dir, verify === true);
  if (page === null) return;
  writeWhole(path, page);
  const opens = pathToFileURL(path).href;
  if (json === true)
    process.stdout.write(
      `${JSON.stringify({ schema_version: 1, page: path, opens, bytes: Buffer.byteLength(page) })}\n`,
    );
  else process.stdout.write(`${path}\nOpen it in a browser: ${opens}\n`);
}

/** Null where the run was to be made again, and was stopped or came out otherwise: what differs has been said. */
async function runPage(dir: string, verify: boolean): Promise<string | null> {
  const kept = readBundleFiles(dir);
  if (!verify) return makePage(kept);
  const verification = await verifyKept(dir, kept, false);
  if (verification?.same === true) return makePage(kept, verification);
  process.exitCode = verification === null ? exit.stopped : exit.failed;
  process.stderr.write(
    verification === null
      ? 'Stopped; no page was made.\n'
      : `${verificationText(verification, false, paintFor(process.stderr, true))}\nNo page was made.\n`,
  );
  return null;
}

function studyPage(dir: string, verify: boolean): string {
  if (!verify) return makeStudyPage(dir);
  throw new BadInput([
    {
      severity: 'error',
      file: dir,
      found: '--verify for a study',
      expected: 'a kept run, which is run again whole',
      mend: 'leave it out; a trial of the study is run again in its page',
    },
  ]);
}
