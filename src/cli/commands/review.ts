/** `buswake review`: what kept runs show of the specification they were judged by, line by line. */
import { Command } from 'commander';
import type { Report } from '../../analysis/judge/report.ts';
import type { ShownIn, Statement } from '../../analysis/statement/line.ts';
import { together } from '../../analysis/statement/state.ts';
import { statementCsv } from '../../analysis/statement/statement-csv.ts';
import { BadInput } from '../../base/problem.ts';
import { decodeReport } from '../../bundle/decode.ts';
import { readBundleFiles } from '../../bundle/read.ts';
import { refuseExisting, writeWhole } from '../../disk/write-file.ts';
import { refusePrecious } from '../disk/refuse-precious.ts';
import { jsonText } from '../disk/study-files.ts';
import { type ExitCode, exit } from '../exit.ts';
import { needs, onDiskAlone, ruled } from '../options/rules/rule.ts';
import { forceOption, jsonOption } from '../options/shared-options.ts';
import { statementText } from '../terminal/statement-text.ts';

interface ReviewOptions {
  readonly out?: string;
  readonly force?: boolean;
  readonly quiet?: boolean;
  readonly json?: boolean;
}

const examples = `Examples:
  buswake run pulse-train --limits models/specification-example.csv --out out/run
  buswake review out/run
  buswake review out/run out/outage --out statement.csv
`;

const widest = 120;
const withoutTerminal = 100;

/** `review DIR…`: exit code 4 where a requirement is not met, 6 where some are open. */
export function reviewCommand(): Command {
  const command = new Command('review')
    .argument('<dirs...>', 'directories that `run --limits SPECIFICATION --out` wrote')
    .option('-o, --out <file>', 'write the statement there, as a table to send back (CSV)')
    .addOption(forceOption('a file'))
    .option('-q, --quiet', 'leave out the next step')
    .addOption(jsonOption())
    .addHelpText('before', examples)
    .action(review);
  return ruled(command, [
    onDiskAlone('--out'),
    needs('--force', ['--out'], 'a file that it may overwrite', 'leave it out', '--out'),
  ]);
}

/** What `review --json` prints. */
export interface ReviewDocument {
  readonly schema_version: number;
  /** The table that was written; null where none was asked for. */
  readonly out: string | null;
  readonly statement: Statement;
}

function review(dirs: readonly string[], { out, force, quiet, json }: ReviewOptions): void {
  if (out !== undefined) {
    refuseExisting([out], force === true);
    refusePrecious([out], []);
  }
  const kept = dirs.map((dir) => keptIn(dir));
  const statement = together(sameSpecification(kept), apartIn(kept));
  if (out !== undefined) writeWhole(out, statementCsv(statement), { force: force === true });
  process.exitCode = exitCodeOf(statement);
  if (json === true) {
    const document: ReviewDocument = { schema_version: 1, out: out ?? null, statement };
    process.stdout.write(jsonText(document));
    return;
  }
  const width = Math.min(process.stdout.columns ?? withoutTerminal, widest);
  process.stdout.write(`${statementText(statement, width)}\n`);
  if (quiet === true) return;
  const again = `buswake review ${dirs.join(' ')}`;
  process.stderr.write(
    out === undefined ? `next    to send it back: ${again} --out statement.csv\n` : `Written: ${out}\n`,
  );
}

/** A kept run and its statement. */
interface Kept {
  readonly dir: string;
  readonly statement: Statement;
  readonly inputs: Report['inputs'];
}

function keptIn(dir: string): Kept {
  const { statement, inputs } = decodeReport(readBundleFiles(dir).files);
  if (statement !== undefined) return { dir, statement, inputs };
  return refuse(
    dir,
    'a run that was judged by limits of its cabinet',
    'a run that was judged by a specification',
    'run it with --limits SPECIFICATION.csv --out DIR',
  );
}

/** Runs that were judged by other texts make no statement together; by which path a text was reached does not matter. */
function sameSpecification(kept: readonly Kept[]): readonly Statement[] {
  const asked = ({ lines }: Statement): string =>
    JSON.stringify(lines.map(({ requirement: { SI_per_unit, altered, file, ...written } }) => written));
  const [first, ...others] = kept;
  for (const { dir, statement } of others)
    if (asked(statement) !== asked(first!.statement))
      refuse(dir, 'another specification', `the one that ${first!.dir} was judged by`, 'review it alone');
  // Runs of one scenario are told apart by where they are kept.
  return others.length === 0 ? [first!.statement] : kept.map(({ dir, statement }) => namedAs(statement, dir));
}

function namedAs(statement: Statement, run: string): Statement {
  const named = (one: ShownIn): ShownIn => ({ ...one, run });
  return {
    ...statement,
    runs: [run],
    lines: statement.lines.map((line) => ({ ...line, shown: line.shown.map(named) })),
  };
}

/** What happens to a cabinet is no part of it, nor by which path its specification was reached: that is compared by itself. */
const circumstances = /^(?:events\.|load\.|duration$|limits$|outage$|start$|warm_up$)/;

/** Files and changes of the cabinet that not all the runs share; each has a scenario of its own, which comes first. */
function apartIn(kept: readonly Kept[]): string[] {
  // A file is the same by its sum, whatever path it was reached by.
  const named = ({ inputs }: Kept): (readonly [identity: string, name: string])[] =>
    inputs
      .slice(1)
      .filter((input) => !('change' in input && circumstances.test(input.change.path)))
      .map((input) => {
        if (!('change' in input)) return [input.sha256, input.path];
        const change = `${input.change.path} = ${input.change.value}`;
        return [change, change];
      });
  const all = kept.map(named);
  const shared = (identity: string): boolean => all.every((one) => one.some(([own]) => own === identity));
  return [...new Set(all.flat().flatMap(([identity, name]) => (shared(identity) ? [] : [name])))];
}

function exitCodeOf({ lines }: Statement): ExitCode {
  if (lines.some(({ state }) => state === 'not_met')) return exit.failed;
  return lines.some(({ state }) => state === 'open') ? exit.inconclusive : exit.passed;
}

function refuse(file: string, found: string, expected: string, mend: string): never {
  throw new BadInput([{ severity: 'error', file, found, expected, mend }]);
}
