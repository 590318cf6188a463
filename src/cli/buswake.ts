/** The command line: one file per command; this one lists them and turns errors into exit codes. */
import { Command } from 'commander';
import { thisBuild } from '../bundle/build.ts';
import { toolVersion } from '../version.ts';
import { startThread } from './apart/run-apart.ts';
import { calledAs, speakAsCalled } from './called.ts';
import { commandNames, commands } from './commands.ts';
import { errorStyle, exit, exitCodesText, reportError } from './exit.ts';
import { refuseOptionAsValue, refuseTwice } from './options/once.ts';
import { addEverywhere } from './options/shared-options.ts';
import { beginCommand } from './this-command.ts';
import { workingFolder } from './working-folder.ts';

const shortHelp = `buswake: does the bus of a DC power cabinet stay inside its window, and what makes it so?

Example:
  buswake run pulse-train

Commands: ${commandNames.join(', ')}. More: buswake --help
`;

/** The program: the command that `words` name is loaded, of all others their names and what they do. */
async function program(words: readonly string[]): Promise<Command> {
  const root = new Command('buswake')
    .description('Simulates a DC power cabinet under pulsed accelerator loads and judges it by its limits.')
    .version(`${toolVersion} (build ${thisBuild().source_sha256.slice(0, 12)})`)
    .addHelpText('before', 'Examples:\n  buswake run pulse-train\n  buswake check pulse-train\n')
    .addHelpText('after', exitCodesText)
    .option('--debug', 'show where an error came from')
    .showSuggestionAfterError(true)
    .exitOverride();
  const asked = words.filter((word) => !word.startsWith('-')).find((word) => word !== 'help');
  if (asked !== undefined && commands[asked]?.runsApart && !asksForHelp(words)) startThread();
  for (const [name, { does, load }] of Object.entries(commands)) {
    const command = name === asked ? (await load())() : new Command(name);
    command.description(does).copyInheritedSettings(root);
    addEverywhere(command);
    refuseOptionAsValue(command);
    refuseTwice(command);
    root.addCommand(command);
  }
  return root;
}

function asksForHelp(words: readonly string[]): boolean {
  return words.length === 1 || words.some((word) => word === 'help' || word === '--help' || word === '-h');
}

async function main(words: readonly string[]): Promise<void> {
  beginCommand();
  // A reader that closes early, like head, is no error.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(exit.passed);
    process.stderr.write(`Standard output cannot be written (${error.code}): what was found is not shown.\n`);
    process.exit(exit.badInput);
  });
  // What cannot be told there is still told by the exit code.
  process.stderr.on('error', () => {});
  try {
    const folder = workingFolder();
    if (!errorStyle(words).json)
      speakAsCalled(calledAs(process.argv[1] ?? '', process.env, folder), commandNames);
    if (words.length === 0) {
      process.stderr.write(shortHelp);
      process.exitCode = exit.commandLine;
      return;
    }
    // Help on what is no command is told as the command would be: with the nearest that is one.
    const isHelpOnNone = words[0] === 'help' && words[1] !== undefined && !commandNames.includes(words[1]);
    const typed = isHelpOnNone ? words.slice(1) : words;
    const root = await program(typed);
    refuseMoreThanOne(root, typed);
    await root.parseAsync([...typed], { from: 'user' });
  } catch (error) {
    process.exitCode = reportError(error, errorStyle(words));
  }
}

/** Help is on one command; another word behind it would be passed over. */
function refuseMoreThanOne(root: Command, words: readonly string[]): void {
  const asked = words.filter((word) => !word.startsWith('-'));
  if (asked[0] !== 'help' || asked.length <= 2) return;
  const message = `error: too many arguments for 'help'. Expected 1 argument but got ${asked.length - 1}.`;
  root.error(message, { code: 'commander.excessArguments' });
}

/** Settled when the command has done what its words ask for. */
export const done: Promise<void> = main(process.argv.slice(2));
