/** `buswake view`: the page on a kept run. */

import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Command, Option } from 'commander';
import { readBundleFiles } from '../../bundle/read.ts';
import { refuseExisting, writeWhole } from '../../disk/write-file.ts';
import { excludes, needs, onDiskAlone, ruled } from '../options/rules/rule.ts';
import { forceOption, jsonOption } from '../options/shared-options.ts';
import { makePage } from '../pages/page.ts';
import { isStudyDir, makeStudyPage } from '../pages/study-page.ts';

interface ViewOptions {
  readonly out?: string;
  readonly oneFile?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

const examples = `Examples:
  buswake view out/run
  buswake view out/run --out run.html
`;

/** Writes `DIR/page.html`, or one file wherever it is asked for; both open from disk without a server. */
export function viewCommand(): Command {
  const command = new Command('view')
    .argument('<dir>', 'directory that `run --out` or a study wrote')
    .option('-o, --out <file>', 'write the page there instead of DIR/page.html')
    .addOption(new Option('--one-file <file>', 'another name of --out').hideHelp())
    .addOption(forceOption('a file'))
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

function view(dir: string, { out, oneFile = out, force, json }: ViewOptions): void {
  const path = resolve(oneFile ?? join(dir, 'page.html'));
  if (oneFile !== undefined) refuseExisting(oneFile, force === true);
  const page = isStudyDir(dir) ? makeStudyPage(dir) : makePage(readBundleFiles(dir));
  writeWhole(path, page);
  const opens = pathToFileURL(path).href;
  const document: ViewDocument = { schema_version: 1, page: path, opens, bytes: Buffer.byteLength(page) };
  if (json === true) process.stdout.write(`${JSON.stringify(document)}\n`);
  else process.stdout.write(`${path}\nOpen it in a browser: ${opens}\n`);
}
