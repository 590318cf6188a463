/** The command line: one file per command; this one lists them and turns errors into exit codes. */
import { Command } from 'commander';
import { toolVersion } from '../version.ts';
import { calledAs, speakAsCalled } from './called.ts';
import { errorStyle, exit, exitCodesText, reportError } from './exit.ts';
import { refuseTwice } from './options/once.ts';

/** Every command, in the order of the help, and where it is: only what is asked for is loaded. */
const commands: Readonly<Record<string, () => Promise<() => Command>>> = {
  run: () => import('./commands/run.ts').then(({ runCommand }) => runCommand),
  check: () => import('./commands/check.ts').then(({ checkCommand }) => checkCommand),
  trace: () => import('./commands/trace.ts').then(({ traceCommand }) => traceCommand),
  view: () => import('./commands/view.ts').then(({ viewCommand }) => viewCommand),
  verify: () => import('./commands/verify.ts').then(({ verifyCommand }) => verifyCommand),
  export: () => import('./commands/export.ts').then(({ exportCommand }) => exportCommand),
  size: () => import('./commands/size.ts').then(({ sizeCommand }) => sizeCommand),
  rating: () => import('./commands/rating.ts').then(({ ratingCommand }) => ratingCommand),
  matrix: () => import('./commands/matrix.ts').then(({ matrixCommand }) => matrixCommand),
  spread: () => import('./commands/spread.ts').then(({ spreadCommand }) => spreadCommand),
  compare: () => import('./commands/compare.ts').then(({ compareCommand }) => compareCommand),
  gains: () => import('./commands/gains.ts').then(({ gainsCommand }) => gainsCommand),
  response: () => import('./commands/response.ts').then(({ responseCommand }) => responseCommand),
  fit: () => import('./commands/fit.ts').then(({ fitCommand }) => fitCommand),
};

const names = Object.keys(commands);

const shortHelp = `buswake: does the bus of a DC power cabinet stay inside its window, and what makes it so?

Example:
  buswake run pulse-train

Commands: ${names.join(', ')}. More: buswake --help
`;

/** The program with the command that `words` name, none where only the version is asked for, or all: for help, and for words it does not know. */
async function program(words: readonly string[]): Promise<Command> {
  const root = new Command('buswake')
    .description('Simulates a DC power cabinet under pulsed accelerator loads and judges it by its limits.')
    .version(toolVersion)
    .addHelpText('before', 'Examples:\n  buswake run pulse-train\n  buswake check pulse-train\n')
    .addHelpText('after', exitCodesText)
    .option('--debug', 'show where an error came from')
    .showSuggestionAfterError(true)
    .exitOverride();
  const asked = words.find((word) => !word.startsWith('-'));
  const all = words.includes('--version') && asked === undefined ? [] : Object.values(commands);
  const load = asked !== undefined && Object.hasOwn(commands, asked) ? [commands[asked]!] : all;
  for (const make of await Promise.all(load.map((one) => one()))) {
    const command = make();
    command.copyInheritedSettings(root);
    if (!command.options.some((option) => option.long === '--debug')) {
      command.option('--debug', 'show where an error came from');
    }
    refuseTwice(command);
    root.addCommand(command);
  }
  return root;
}

async function main(words: readonly string[]): Promise<void> {
  // A reader that closes early, like head, is no error.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(exit.passed);
    throw error;
  });
  if (!errorStyle(words).json) {
    speakAsCalled(calledAs(process.argv[1] ?? '', process.env, process.cwd()), names);
  }
  if (words.length === 0) {
    process.stderr.write(shortHelp);
    process.exitCode = exit.commandLine;
    return;
  }
  try {
    await (await program(words)).parseAsync([...words], { from: 'user' });
  } catch (error) {
    process.exitCode = reportError(error, errorStyle(words));
  }
}

await main(process.argv.slice(2));
