/** `buswake view`: the page on a kept run. */
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Command } from 'commander';
import { readBundleFiles } from '../../bundle/read.ts';
import { refuseExisting, writeWhole } from '../../disk/write-file.ts';
import { needs, onDiskAlone, ruled } from '../options/rules/rule.ts';
import { makePage } from '../pages/page.ts';
import { isStudyDir, makeStudyPage } from '../pages/study-page.ts';

interface ViewOptions {
  readonly oneFile?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

const examples = `Examples:
  buswake view out/run
  buswake view out/run --one-file run.html
`;

/** Writes `DIR/page.html`, or one file wherever it is asked for; both open from disk without a server. */
export function viewCommand(): Command {
  const command = new Command('view')
    .argument('<dir>', 'directory that `run --out` or a study wrote')
    .option('--one-file <file>', 'write the page there instead of DIR/page.html')
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

async function view(dir: string, { oneFile, force, json }: ViewOptions): Promise<void> {
  const path = resolve(oneFile ?? join(dir, 'page.html'));
  if (oneFile !== undefined) refuseExisting(oneFile, force === true);
  const page = isStudyDir(dir) ? makeStudyPage(dir) : makePage(readBundleFiles(dir));
  writeWhole(path, page);
  const opens = pathToFileURL(path).href;
  if (json === true)
    process.stdout.write(
      `${JSON.stringify({ schema_version: 1, page: path, opens, bytes: Buffer.byteLength(page) })}\n`,
    );
  else process.stdout.write(`${path}\nOpen it in a browser: ${opens}\n`);
}
