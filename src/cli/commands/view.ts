/** `buswake view`: the page on a kept run. */
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Command, Option } from 'commander';
import { BadInput } from '../../base/problem.ts';
import { readBundleFiles } from '../../bundle/read.ts';
import { refuseExisting, writeWhole } from '../../disk/write-file.ts';
import { verifyKept } from '../apart/verify-kept.ts';
import { refusePrecious } from '../disk/refuse-precious.ts';
import { jsonText } from '../disk/study-files.ts';
import { isStudyDir } from '../disk/study-folder.ts';
import { exit } from '../exit.ts';
import { excludes, needs, onDiskAlone, ruled } from '../options/rules/rule.ts';
import { forceOption, jsonOption } from '../options/shared-options.ts';
import { makePage } from '../pages/page.ts';
import { makeStudyPage } from '../pages/study-page.ts';
import { paintFor } from '../terminal/paint.ts';
import { verificationText } from '../terminal/verify-text.ts';

interface ViewOptions {
  readonly out?: string;
  readonly oneFile?: string;
  readonly verify?: boolean;
  readonly force?: boolean;
  readonly quiet?: boolean;
  readonly json?: boolean;
}

const examples = `Examples:
  buswake view out/run
  buswake view out/run --out run.html
  buswake view out/run --verify
`;

/** Writes `DIR/page.html`, or one file wherever it is asked for; both open from disk without a server. */
export function viewCommand(): Command {
  const command = new Command('view')
    .argument('<dir>', 'directory that `run --out` or a study wrote')
    .option('-o, --out <file>', 'write the page there instead of DIR/page.html')
    .addOption(new Option('--one-file <file>', 'another name of --out').hideHelp())
    .option('--verify', 'run it again first: the page says that it came out the same')
    .addOption(forceOption('a file'))
    .option('-q, --quiet', 'print one line, the path of the page')
    .addOption(jsonOption())
    .addHelpText('before', examples)
    .action(view);
  return ruled(command, [
    onDiskAlone('--out'),
    onDiskAlone('--one-file'),
    excludes('--one-file', '--out', 'one of them: they are the same', 'leave out --one-file'),
    needs(
      '--force',
      ['--out', '--one-file'],
      'a file that it may overwrite: the page in DIR is made anew',
      'leave it out',
      '--out',
    ),
  ]);
}

/** What `view --json` prints. */
export interface ViewDocument {
  readonly schema_version: number;
  /** Path of the page. */
  readonly page: string;
  /** Its address in a browser. */
  readonly opens: string;
  readonly bytes: number;
}

async function view(dir: string, options: ViewOptions): Promise<void> {
  const { out, oneFile = out, verify, force, quiet, json } = options;
  const path = resolve(oneFile ?? join(dir, 'page.html'));
  if (oneFile !== undefined) {
    refuseExisting([oneFile], force === true);
    refusePrecious([oneFile], []);
  }
  const page = isStudyDir(dir) ? studyPage(dir, verify === true) : await runPage(dir, options);
  if (page === null) return;
  writeWhole(path, page, { force: oneFile === undefined || force === true });
  const opens = pathToFileURL(path).href;
  const document: ViewDocument = { schema_version: 1, page: path, opens, bytes: Buffer.byteLength(page) };
  if (json === true) process.stdout.write(`${JSON.stringify(document)}\n`);
  else process.stdout.write(quiet === true ? `${path}\n` : `${path}\nOpen it in a browser: ${opens}\n`);
}

/** Null where the run was to be made again, and was stopped or came out otherwise: what differs has been said. */
async function runPage(dir: string, { verify, quiet, json }: ViewOptions): Promise<string | null> {
  const kept = readBundleFiles(dir);
  if (verify !== true) return makePage(kept);
  const verification = await verifyKept(dir, kept, quiet === true);
  if (verification?.same === true) return makePage(kept, verification);
  process.exitCode = verification === null ? exit.stopped : exit.failed;
  // In place of the page's document that of what differs, as `verify` gives it.
  if (json === true && verification !== null) process.stdout.write(jsonText(verification));
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
