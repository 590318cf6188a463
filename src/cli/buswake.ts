#!/usr/bin/env -S node --import tsx
/** The command line: one file per command; this one lists them and turns errors into exit codes. */
import { Command } from 'commander';
import { toolVersion } from '../analysis/judge.ts';
import { calledAs, speakAsCalled } from './called.ts';
import { checkCommand } from './check.ts';
import { compareCommand } from './compare.ts';
import { errorStyle, exit, exitCodesText, reportError } from './exit.ts';
import { fitCommand } from './fit.ts';
import { gainsCommand } from './gains.ts';
import { matrixCommand } from './matrix.ts';
import { ratingCommand } from './rating.ts';
import { responseCommand } from './response.ts';
import { runCommand } from './run.ts';
import { sizeCommand } from './size.ts';
import { spreadCommand } from './spread.ts';
import { traceCommand } from './trace.ts';
import { viewCommand } from './view.ts';

/** Every command, in the order of the help. A new command is one file and one word here. */
const commands: readonly (() => Command)[] = [
  runCommand,
  checkCommand,
  traceCommand,
  viewCommand,
  sizeCommand,
  ratingCommand,
  matrixCommand,
  spreadCommand,
  compareCommand,
  gainsCommand,
  responseCommand,
  fitCommand,
];

const names = commands.map((make) => make().name());

const shortHelp = `buswake: does the bus of a DC power cabinet stay inside its window, and what makes it so?

Example:
  buswake run pulse-train

Commands: ${names.join(', ')}. More: buswake --help
`;

function program(): Command {
  const root = new Command('buswake')
    .description('Simulates a DC power cabinet under pulsed accelerator loads and judges it by its limits.')
    .version(toolVersion)
    .addHelpText('before', 'Examples:\n  buswake run pulse-train\n  buswake check pulse-train\n')
    .addHelpText('after', exitCodesText)
    .option('--debug', 'show where an error came from')
    .showSuggestionAfterError(true)
    .exitOverride();
  for (const make of commands) {
    const command = make();
    command.copyInheritedSettings(root);
    if (!command.options.some((option) => option.long === '--debug')) {
      command.option('--debug', 'show where an error came from');
    }
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
    await program().parseAsync([...words], { from: 'user' });
  } catch (error) {
    process.exitCode = reportError(error, errorStyle(words));
  }
}

await main(process.argv.slice(2));
