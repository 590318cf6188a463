/** `buswake new`: a cabinet of another size as files to begin from. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { Command, Option } from 'commander';
import { counted } from '../../base/counted.ts';
import { BadInput } from '../../base/problem.ts';
import { onDisk } from '../../disk/on-disk.ts';
import { Part } from '../../disk/part.ts';
import { home } from '../../home.ts';
import { readScenario } from '../../scenario/read.ts';
import { type Answers, type Question, questions } from '../../shipped/draft/answers.ts';
import { type Drafted, draftedFiles } from '../../shipped/draft/files.ts';
import { quotedPlace } from '../../studies/trials/replay.ts';
import { toolVersion } from '../../version.ts';
import { refuseTaken } from '../disk/refuse-taken.ts';
import { onDiskAlone, ruled } from '../options/rules/rule.ts';
import { jsonOption } from '../options/shared-options.ts';
import { askedFor } from '../terminal/ask.ts';
import { scenarioLines } from '../terminal/scenario-text.ts';

type NewOptions = Answers & {
  readonly out?: string;
  readonly quiet?: boolean;
  readonly json?: boolean;
};

const examples = `Examples:
  buswake new hall-3 --sleds "14 of 18 kW" --feeder "480 V" --frequency "60 Hz"
  buswake new aisle --sleds 8 --nominal "400 V"
  buswake new wide --sleds 24 --sections 1 --trays "6 of 20 kW, 2 of 10 kW"
`;

export function newCommand(): Command {
  const command = new Command('new').argument('<name>', 'name of the cabinet: letters, digits and -');
  for (const [question, { asks, example, usual }] of Object.entries(questions)) {
    const otherwise = usual === null ? ' (required)' : ` (otherwise ${usual})`;
    command.addOption(
      new Option(`--${question} <${wordFor(question)}>`, `${asks}, like "${example}"${otherwise}`),
    );
  }
  command
    .option('-o, --out <dir>', 'folder to write, free or empty; the name otherwise')
    .option('-q, --quiet', 'leave out the next step')
    .addOption(jsonOption())
    .addHelpText('before', examples)
    .action(draftAndWrite);
  return ruled(command, [onDiskAlone('--out')]);
}

function wordFor(question: string): string {
  if (question === 'nominal' || question === 'feeder') return 'voltage';
  if (question === 'frequency') return 'frequency';
  return question === 'sections' ? 'n' : 'units';
}

/** What `new --json` prints. */
export interface NewDocument {
  readonly schema_version: number;
  readonly tool_version: string;
  /** The folder that was written. */
  readonly folder: string;
  /** Files in it. */
  readonly files: readonly string[];
  /** Scenarios among them, and the sizing where there are trays. */
  readonly scenarios: readonly string[];
  readonly study: string | null;
  /** The study of designs. */
  readonly designs: string;
}

async function draftAndWrite(name: string, options: NewOptions): Promise<void> {
  refuseName(name);
  const folder = options.out ?? name;
  refuseTaken(folder);
  const given = Object.fromEntries(
    (Object.keys(questions) as Question[]).flatMap((key) =>
      options[key] === undefined ? [] : [[key, options[key]]],
    ),
  );
  const answers: Answers = Object.keys(given).length === 0 ? await askedFor(questions) : given;
  const schemas = relative(resolve(folder), join(home, 'dist', 'schemas'));
  const drafted = draftedFiles(
    name,
    answers,
    (file) => readFileSync(join(home, 'models', file), 'utf8'),
    schemas,
  );
  writeFolder(folder, drafted.files);
  const document: NewDocument = {
    schema_version: 1,
    tool_version: toolVersion,
    folder,
    files: Object.keys(drafted.files),
    scenarios: ['pulses.yaml', 'start.yaml'],
    study: 'trays.yaml' in drafted.files ? 'trays.yaml' : null,
    designs: 'designs.yaml',
  };
  process.stdout.write(
    options.json === true
      ? `${JSON.stringify(document, null, 2)}\n`
      : textOf(document, drafted, options.quiet === true),
  );
}

/** All of them or none, and over nothing. */
function writeFolder(folder: string, files: Drafted['files']): void {
  const part = new Part(folder, 'folder', { force: false });
  try {
    onDisk(folder, () => {
      for (const [file, text] of Object.entries(files)) {
        const path = join(part.path, file);
        mkdirSync(dirname(path), { recursive: true });
        writeFileSync(path, text);
      }
    });
    part.keep();
  } finally {
    part.drop();
  }
}

function refuseName(name: string): void {
  if (/^[A-Za-z][\w-]*$/.test(name)) return;
  const expected = 'letters, digits and -, a letter first';
  throw new BadInput([
    {
      severity: 'error',
      found: `the name ${name}`,
      expected,
      mend: 'name the cabinet so, and the folder with --out',
    },
  ]);
}

function textOf(
  { folder, files, study, designs }: NewDocument,
  { files: texts }: Drafted,
  quiet: boolean,
): string {
  const { scenario } = readScenario('pulses.yaml', {
    files: (path) => ({ text: texts[path] ?? null, sha256: '' }),
  });
  const shown = new Set(['cabinet', '', 'bars']);
  const place = (file: string): string => quotedPlace(join(folder, file));
  return [
    `${folder}: ${counted(files.length, 'file')}, of which cabinet.yaml is the one to change`,
    ...scenarioLines(scenario)
      .filter(([label]) => shown.has(label))
      .map(([label, text]) => `  ${label.padEnd(9)} ${text}`),
    '  loads     pulses.yaml, start.yaml: those of the reference cabinet, scaled; put yours in their place',
    `  studies   ${study === null ? '' : `${study}: how many trays; `}${designs}: which designs none beats`,
    ...(quiet
      ? []
      : [
          `next      buswake check ${place('pulses.yaml')}, then buswake run ${place('pulses.yaml')}${study === null ? '' : `, then buswake size ${place(study)}`}`,
        ]),
    '',
  ].join('\n');
}
