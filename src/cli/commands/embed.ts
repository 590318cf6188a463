/** `buswake embed`: the laws of share, smoothing, charge and sampled voltage loops as C, with the gains and test vectors of a scenario. */

import { closeSync, mkdirSync, openSync, statSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { Command, Option } from 'commander';
import { counted } from '../../base/counted.ts';
import { digits } from '../../base/digits.ts';
import { formatProblem } from '../../base/problem.ts';
import { onDisk } from '../../disk/on-disk.ts';
import { Part } from '../../disk/part.ts';
import { embeddedFiles } from '../../embed/embedded.ts';
import { listenFixed } from '../../embed/fixed/listen-fixed.ts';
import { listen } from '../../embed/listen.ts';
import { compileWords } from '../../embed/readme-text.ts';
import { vectorsFile } from '../../embed/replay-text.ts';
import type { Change } from '../../scenario/scenario.ts';
import { quotedPlace } from '../../studies/trials/replay.ts';
import { toolVersion } from '../../version.ts';
import { refuseTaken } from '../disk/refuse-taken.ts';
import { againWords } from '../options/again.ts';
import { onDiskAlone, ruled } from '../options/rules/rule.ts';
import { scenarioToRun } from '../options/scenario-to-run.ts';
import { setOption } from '../options/set-option.ts';
import { jsonOption } from '../options/shared-options.ts';
import { Progress } from '../terminal/progress.ts';

/** Types of numbers that the laws are written with. */
export const numberNames = ['float', 'fixed'] as const;

type NumberName = (typeof numberNames)[number];

interface EmbedOptions {
  readonly out: string;
  readonly set: readonly Change[];
  readonly numbers: NumberName;
  readonly quiet?: boolean;
  readonly json?: boolean;
}

const examples = `Examples:
  buswake embed single-step --out out/laws
  buswake embed pulse-train --set duration="2 s" --out out/laws
  buswake embed single-step --set duration="1 s" --numbers fixed --out out/laws
`;

export function embedCommand(): Command {
  const command = new Command('embed')
    .argument('<scenario>', 'path of a scenario, or the name of one in scenarios/; - reads stdin')
    .requiredOption('-o, --out <dir>', 'folder to write, free or empty')
    .addOption(
      new Option(
        '--numbers <type>',
        '64-bit floats, the same bits as the run; or fixed point in words of 32 bits',
      )
        .choices(numberNames)
        .default('float'),
    )
    .addOption(setOption())
    .option('-q, --quiet', 'leave out the next step')
    .addOption(jsonOption())
    .addHelpText('before', examples)
    .action(embedAndPrint);
  return ruled(command, [onDiskAlone('--out')]);
}

/** What `embed --json` prints. */
export interface EmbedDocument {
  readonly schema_version: number;
  readonly tool_version: string;
  /** The folder that was written. */
  readonly folder: string;
  /** Type of the numbers: `float` (64 bits) or `fixed` (words of 32 bits). */
  readonly numbers: NumberName;
  /** Files in it. */
  readonly files: readonly string[];
  /** Each law with the file of its vectors, how often it ran and how large that file is. */
  readonly laws: readonly {
    readonly id: string;
    readonly law: string;
    readonly vectors: string;
    readonly runs: number;
    readonly bytes: number;
  }[];
  /** Laws that stay out, and why. */
  readonly left_out: readonly string[];
  /** How it is compiled, from within the folder. */
  readonly compile: string;
}

function embedAndPrint(name: string, options: EmbedOptions, command: Command): void {
  refuseTaken(options.out);
  const { scenario, recorded, warnings } = scenarioToRun(name, options.set);
  for (const warning of warnings) process.stderr.write(`${formatProblem(warning)}\n`);
  const { out } = options;
  const part = new Part(out, 'folder', { force: false });
  try {
    onDisk(out, () => mkdirSync(part.path));
    const progress = new Progress(scenario.id, options.quiet === true);
    const vectors = new Vectors(part.path, out);
    const listening = {
      line: (id: string, text: string) => vectors.add(vectorsFile({ id }), text),
      onProgress: (fraction: number) => progress.at(fraction),
    };
    const fixed = options.numbers === 'fixed' ? listenFixed(scenario, recorded, listening) : null;
    const listened = fixed?.listened ?? listen(scenario, recorded, listening);
    vectors.close();
    progress.clear();
    const origin = {
      tool_version: toolVersion,
      scenario,
      command: `${againWords(command, name)} --out laws`,
    };
    const files = embeddedFiles(listened, scenario, origin, fixed);
    onDisk(out, () => {
      for (const [file, text] of Object.entries(files)) writeFileSync(join(part.path, file), text);
    });
    const laws = listened.heard.map((one) => ({
      id: one.id,
      law: one.law,
      vectors: vectorsFile(one),
      runs: one.rows,
      bytes: statSync(join(part.path, vectorsFile(one))).size,
    }));
    part.keep();
    print(
      {
        schema_version: 1,
        tool_version: toolVersion,
        folder: out,
        numbers: options.numbers,
        files: [...Object.keys(files), ...laws.map(({ vectors: file }) => file)].sort(),
        laws,
        left_out: listened.silent,
        compile: compileWords(listened.heard),
      },
      options,
    );
  } finally {
    part.drop();
  }
}

/** Lines of several files, written in pieces. */
class Vectors {
  private readonly files = new Map<string, { readonly fd: number; text: string }>();
  private readonly folder: string;
  private readonly named: string;

  constructor(folder: string, named: string) {
    this.folder = folder;
    this.named = named;
  }

  add(file: string, line: string): void {
    let at = this.files.get(file);
    if (at === undefined) {
      at = { fd: onDisk(this.named, () => openSync(join(this.folder, file), 'w')), text: '' };
      this.files.set(file, at);
    }
    at.text += `${line}\n`;
    if (at.text.length > piece) this.flush(at);
  }

  close(): void {
    for (const at of this.files.values()) {
      this.flush(at);
      closeSync(at.fd);
    }
  }

  private flush(at: { readonly fd: number; text: string }): void {
    onDisk(this.named, () => writeSync(at.fd, at.text));
    at.text = '';
  }
}

/** Characters that are written at once. */
const piece = 1 << 20;

function print(document: EmbedDocument, { json, quiet }: EmbedOptions): void {
  if (json === true) {
    process.stdout.write(`${JSON.stringify(document, null, 2)}\n`);
    return;
  }
  const { folder, numbers, laws, left_out, compile } = document;
  const lines = laws.map(
    ({ id, vectors, runs, bytes }) =>
      `  ${id.padEnd(14)} ${counted(runs, 'run')} in ${vectors}, ${digits(bytes / 1e6)} MB`,
  );
  process.stdout.write(
    [
      `${folder}: laws in C${numbers === 'fixed' ? ' on fixed point' : ''}, gains.h, replay.c, README.md`,
      ...lines,
      ...left_out.map((why) => `  left out       ${why}`),
      ...(quiet === true ? [] : [`next  cd ${quotedPlace(folder)} && ${compile} && ./replay`]),
      '',
    ].join('\n'),
  );
}
