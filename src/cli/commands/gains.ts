/** `buswake gains`: a map over two parameters with its stable region, a point to choose, and its proof in time. */
import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Command } from 'commander';
import { BadInput, formatProblem } from '../../base/problem.ts';
import { restAt } from '../../linear/rest.ts';
import { readScenario } from '../../scenario/read.ts';
import type { Change, Scenario } from '../../scenario/scenario.ts';
import { canonical } from '../../studies/canonical.ts';
import { usualAcceptance } from '../../studies/gains/accept.ts';
import { axisOf } from '../../studies/gains/axis.ts';
import type { GainsCell } from '../../studies/gains/cell.ts';
import { type GainsMap, mapGains, type PlacedCell, placeOf } from '../../studies/gains/map.ts';
import {
  type Confirmation,
  type GainsReport,
  gainsCsv,
  gainsMarkdown,
  gainsReport,
  gainsSentence,
  mapLetters,
} from '../../studies/gains/paper.ts';
import { requirementsOf } from '../../studies/gains/requirements.ts';
import { shareCases } from '../../studies/share/share-cases.ts';
import { bindingOf, outcomeOf } from '../../studies/trials/run-outcome.ts';
import { conditionsOf, letterOf, restsOn } from '../../studies/trials/states.ts';
import { runApart } from '../apart/run-apart.ts';
import { readTextFile } from '../disk/files.ts';
import { jsonText, studyReportName, writeStudyFiles } from '../disk/study-files.ts';
import { type ExitCode, exit } from '../exit.ts';
import { scenarioFile } from '../options/scenario-named.ts';
import { scenarioToRun } from '../options/scenario-to-run.ts';
import { setOption } from '../options/set-option.ts';
import { nextWords } from '../study/next-words.ts';
import { wholeAboveZero } from '../study/study-options.ts';
import { wrap } from '../terminal/columns.ts';
import { type Paint, paintFor } from '../terminal/paint.ts';
import { Progress } from '../terminal/progress.ts';
import { tableText } from '../terminal/study/table-text.ts';
import { power, settledLoad_W } from './response.ts';

interface GainsOptions {
  readonly set: readonly Change[];
  readonly x: string;
  readonly y: string;
  readonly at?: number;
  readonly confirm: boolean;
  readonly shareCases?: boolean;
  readonly out?: string;
  readonly resume?: boolean;
  readonly force?: boolean;
  readonly workers?: number;
  readonly quiet?: boolean;
  readonly json?: boolean;
  readonly color: boolean;
}

const usualAxes = {
  x: 'firmware.share.time_constant=20 ms to 1 s in 24 log',
  y: 'firmware.share.latency=2.5 ms to 60 ms in 24',
} as const;

const examples = `Examples:
  buswake gains single-step --out out/share
  buswake gains single-step --share-cases
  buswake gains single-step --x shelves.proportional_gain="100 A/V to 600 A/V in 12" --y shelves.control_delay="0 us to 110 us in 12"
`;

export function gainsCommand(): Command {
  return new Command('gains')
    .description('a map over two gains, periods or latencies with the stable region and a point to choose')
    .argument('<scenario>', 'path of a scenario, or the name of one in scenarios/')
    .addOption(setOption())
    .option('--x <path=values>', 'first axis', usualAxes.x)
    .option('--y <path=values>', 'second axis', usualAxes.y)
    .option(
      '--at <power>',
      'load of the settled point; the highest steady load of the scenario by default',
      power,
    )
    .option('--share-cases', 'no map: test the share loop in the time domain, one row per case')
    .option('--no-confirm', 'skip the time-domain run at the recommended point')
    .option('-o, --out <dir>', 'keep cells and report there; required to continue after a stop')
    .option('--resume', 'continue the map kept in that directory')
    .option('--force', 'start again and overwrite what is kept there')
    .option('--workers <n>', 'threads; all cores by default', wholeAboveZero)
    .option('-q, --quiet', 'print one line')
    .option('--json', 'print one JSON document')
    .option('--no-color', 'no colour')
    .addHelpText('before', examples)
    .action(run);
}

async function run(name: string, options: GainsOptions): Promise<void> {
  const file = scenarioFile(name);
  const read = readScenario(file, { files: readTextFile, changes: options.set });
  for (const warning of read.warnings) process.stderr.write(`${formatProblem(warning)}\n`);
  if (options.shareCases === true) return printShareCases(read.scenario, options);
  const axes = [axisOf(options.x, read), axisOf(options.y, read)] as const;
  if (axes[0].path === axes[1].path) {
    throw new BadInput([
      {
        severity: 'error',
        path: axes[0].path,
        found: 'the same parameter on both axes',
        expected: 'two parameters',
        mend: 'name another for --y',
      },
    ]);
  }
  const { scenario } = read;
  const load_W = settledLoad_W(scenario, options.at);
  // Where the scenario itself has no operating point there is nothing to vary about.
  restAt(scenario, load_W);
  const identity = canonical({ inputs: scenario.inputs, set: options.set, axes, load_W });
  const kept = options.out === undefined ? null : new Kept(options.out, identity, options);
  const progress = new Progress(`gains of ${scenario.id}`, options.quiet === true);
  const abort = new AbortController();
  const interrupt = (): void => abort.abort();
  process.on('SIGINT', interrupt);
  let map: GainsMap;
  try {
    map = await mapGains({
      scenario: file,
      changes: options.set,
      load_W,
      axes: [axes[0], axes[1]],
      acceptance: usualAcceptance,
      ...(options.workers === undefined ? {} : { workers: options.workers }),
      ...(kept === null ? {} : { known: kept.cells }),
      signal: abort.signal,
      onCells: (cells, done, all) => {
        kept?.add(cells);
        progress.at(done / all);
      },
    });
  } catch (error) {
    if (!abort.signal.aborted) throw error;
    progress.clear();
    process.exitCode = exit.stopped;
    process.stderr.write(
      kept === null
        ? 'Stopped. Nothing was kept: say --out DIR to keep what is finished.\n'
        : `Stopped. ${kept.cells.size} cells are kept in ${options.out}; go on with --resume.\n`,
    );
    return;
  } finally {
    process.off('SIGINT', interrupt);
    progress.clear();
  }
  const confirmation = options.confirm && map.recommended !== null ? await confirm(name, options, map) : null;
  const chosen = map.recommended;
  const cell = chosen === null ? null : map.cells[chosen.place[0] * axes[1].values.length + chosen.place[1]]!;
  const chosenScenario =
    chosen === null
      ? scenario
      : readScenario(file, { files: readTextFile, changes: [...options.set, ...chosen.changes] }).scenario;
  const report = gainsReport(scenario, map, {
    load_W,
    acceptance: usualAcceptance,
    confirmation,
    requirements: requirementsOf(chosenScenario, chosen, usualAcceptance, cell?.leaves_ratio ?? null),
  });
  if (options.out !== undefined) {
    writeStudyFiles(options.out, {
      [studyReportName]: jsonText(report),
      'study.md': gainsMarkdown(report),
      'cells.csv': gainsCsv(report),
    });
  }
  process.exitCode = chosen === null ? exit.failed : confirmedExit(confirmation);
  const paint = paintFor(process.stdout, options.color);
  if (options.json === true) process.stdout.write(jsonText(report));
  else if (options.quiet === true) process.stdout.write(`${gainsSentence(report)}\n`);
  else
    process.stdout.write(
      `${text(report, nextWords(options.out, `buswake gains ${name}`, ['study.md']), paint)}\n`,
    );
}

/** A point that was not run in time is what the map says of it; one that was is what that run says. */
function confirmedExit(confirmation: Confirmation | null): ExitCode {
  switch (confirmation?.letter) {
    case 'F':
    case 'X':
      return exit.failed;
    case 'E':
      return exit.numerical;
    case 'N':
      return exit.inconclusive;
    default:
      return exit.passed;
  }
}

function printShareCases(scenario: Scenario, options: GainsOptions): void {
  const load_W = settledLoad_W(scenario, options.at);
  const cases = shareCases(scenario, load_W);
  if (options.json === true) {
    process.stdout.write(jsonText({ schema_version: 1, scenario: scenario.id, load_W, cases }));
    return;
  }
  const percent = (ratio: number): string => `${(100 * ratio).toFixed(2)} %`;
  const lines = tableText(
    ['case', 'error', 'cycle', 'settles', 'largest trim of its clamp', 'lowest shelf'],
    cases.map((c) => [
      c.name,
      percent(c.error_ratio),
      percent(c.cycle_ratio),
      c.settling_s === null ? 'not in 5 s' : `${c.settling_s.toFixed(2)} s`,
      percent(c.trim_ratio),
      `${c.bus_V.toFixed(2)} V`,
    ]),
    paintFor(process.stdout, options.color),
    new Set([1, 2, 3, 4, 5]),
  );
  process.stdout.write(
    `${[`Sharing at ${(load_W / 1e3).toFixed(1)} kW, of rated current; cycle: peak to peak over the last second`, ...lines].join('\n')}\n`,
  );
}

/** The scenario itself at the recommended point: judged as any run. */
async function confirm(name: string, options: GainsOptions, map: GainsMap): Promise<Confirmation> {
  const changes = [...options.set, ...map.recommended!.changes];
  const { scenario, recorded } = scenarioToRun(name, changes);
  const progress = new Progress(`${scenario.id} at the recommended point`, options.quiet === true);
  const { report } = await runApart(scenario, recorded, false, (fraction) => progress.at(fraction)).finally(
    () => progress.clear(),
  );
  const outcome = outcomeOf(report);
  return {
    status: report.status,
    verdict: outcome.verdict,
    letter: letterOf(outcome),
    summary: outcome.summary,
    conditions: conditionsOf(outcome),
    warnings: outcome.warnings,
    binding: bindingOf(outcome)?.id ?? null,
    replay: `buswake run ${name} ${changes.map(({ path, value }) => `--set ${path}="${value}"`).join(' ')}`,
  };
}

function text(report: GainsReport, next: string, paint: Paint): string {
  const { recommended, confirmation, requirements } = report;
  return [
    ...wrap(gainsSentence(report), 120, '  '),
    '',
    ...mapLetters(report).map((line) => `  ${line}`),
    ...(recommended === null
      ? []
      : [
          '',
          paint('strong', 'distance to the edge of the acceptable region'),
          ...tableText(
            ['', 'side', 'last acceptable', 'of the chosen', 'not any more at'],
            recommended.edges.map((edge) => [
              edge.path,
              edge.side,
              edge.text,
              edge.factor === null ? '–' : `× ${edge.factor.toPrecision(3)}`,
              edge.beyond ?? 'the map ends here',
            ]),
            paint,
            new Set([2, 3]),
          ),
        ]),
    ...(confirmation === null
      ? []
      : [
          '',
          paint('strong', 'in time, limits and modes on'),
          ...[confirmation.summary, ...restsOn(confirmation)].flatMap((words) =>
            wrap(`  ${words}`, 118, '  '),
          ),
          `  ${confirmation.replay}`,
        ]),
    '',
    paint('strong', 'what a supplier must meet, and how it is tested'),
    ...requirements.flatMap(({ path, text: line, why, test }) => [
      `  ${path}: ${line}`,
      ...wrap(`    ${why}`, 114, '    '),
      ...wrap(`    test: ${test}`, 114, '      '),
    ]),
    '',
    ...report.remarks.flatMap((remark) => wrap(`  ${remark}`, 118, '    ')),
    '',
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}

/** Cells kept as they come: a head line that says of what, then one line each. */
class Kept {
  readonly cells: Map<string, GainsCell> = new Map();
  private readonly path: string;

  constructor(dir: string, identity: string, { resume, force }: GainsOptions) {
    this.path = join(dir, 'cells.jsonl');
    if (existsSync(this.path) && force !== true) {
      if (resume !== true)
        throw refusal(dir, 'a map is kept there', 'give --resume to continue, or --force to start again');
      const [head = '', ...lines] = readFileSync(this.path, 'utf8').split('\n');
      if (head !== identity)
        throw refusal(dir, 'a map of something else', 'use another directory, or --force');
      for (const line of lines) {
        // A line cut short by a stop is computed again.
        if (!line.endsWith('}')) continue;
        const { x, y, lacks: _, ...cell } = JSON.parse(line) as PlacedCell;
        this.cells.set(placeOf(x, y), cell);
      }
      return;
    }
    mkdirSync(dir, { recursive: true });
    writeStudyFiles(dir, { 'cells.jsonl': `${identity}\n` });
  }

  add(cells: readonly PlacedCell[]): void {
    for (const { x, y, lacks: _, ...cell } of cells) this.cells.set(placeOf(x, y), cell);
    appendFileSync(this.path, cells.map((cell) => `${JSON.stringify(cell)}\n`).join(''));
  }
}

function refusal(dir: string, found: string, mend: string): BadInput {
  return new BadInput([
    { severity: 'error', file: dir, path: '--out', found, expected: 'an empty directory', mend },
  ]);
}
