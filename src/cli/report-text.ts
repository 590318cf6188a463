/** A judged run on one screen: verdict, findings, metrics, energy, engine, what to do next. */
import { judgedApart } from '../analysis/judged-apart.ts';
import { numberText } from '../analysis/number-text.ts';
import type { Metrics, Report } from '../analysis/report.ts';
import { alignColumns, wrap } from './columns.ts';
import { findingsText } from './findings-text.ts';
import { gridText } from './grid-text.ts';
import type { Paint, Style } from './paint.ts';
import { signOffText } from './sign-off-text.ts';

const verdictWords: Readonly<Record<Report['verdict'], readonly [string, Style]>> = {
  pass: ['PASS', 'good'],
  pass_with_conditions: ['PASS WITH CONDITIONS', 'open'],
  fail: ['FAIL', 'bad'],
  inconclusive: ['NOT JUDGED', 'open'],
};

export const scopeLines: readonly string[] = [
  'An estimate from averaged models (no switching, no arcs, no protection coordination); not a safety certification.',
  'Stored energy and kiloampere fault currents need licensed practice and the local codes.',
];

/** The verdict line alone: what `-q` prints. */
export function verdictLine(report: Report, paint: Paint): string {
  const [word, style] = verdictWords[report.verdict];
  const said = report.summary.replace(/^[^:]*: /, '');
  return `${paint(style, word)}  ${said}`;
}

export function reportText(report: Report, next: string, width: number, paint: Paint): string {
  const { from, to } = report.window_s;
  return [
    verdictLine(report, paint),
    paint('faint', `${report.scenario.title}: ${span(to - from)} judged, from ${span(from)} to ${span(to)}`),
    '',
    ...findingsText(report.findings, width, paint),
    ...signOffText(report, width, paint),
    ...ledThere(report, width),
    ...outcomeText(report, width),
    '',
    ...metricsText(report, width),
    ...apartText(report, width),
    ...gridText(report, width),
    energyText(report),
    engineText(report),
    ...loadText(report, width),
    '',
    `${paint('strong', 'next')}    ${next}`,
    ...scopeLines.map((line) => paint('faint', line)),
  ].join('\n');
}

/** What became of the cabinet, and how it came to it. */
function outcomeText({ outcome }: Report, width: number): string[] {
  if (outcome.kind === 'steady') return [];
  return [
    '',
    ...wrap(`outcome ${outcome.kind}: ${outcome.because}.`, width, '        '),
    ...outcome.chain.flatMap((s) => wrap(`  ${s}`, width, '    ')),
  ];
}

/** What saturated or switched before the binding failure. */
function ledThere(report: Report, width: number): string[] {
  const binding = report.findings[0];
  if (binding === undefined || binding.verdict !== 'fail' || binding.chain.length === 0) return [];
  return ['', `Before ${binding.id} broke:`, ...binding.chain.flatMap((s) => wrap(`  ${s}`, width, '    '))];
}

const metricWords: readonly (readonly [keyof Metrics, string, string])[] = [
  ['bus_min_V', 'bus lowest', 'V'],
  ['bus_max_V', 'bus highest', 'V'],
  ['shelf_current_max_A', 'shelf current, peak', 'A'],
  ['share_error_steady_ratio', 'share error, steady', 'ratio'],
  ['share_error_transient_ratio', 'share error, after edges', 'ratio'],
  ['ac_power_mean_W', 'AC power, mean', 'W'],
  ['ac_power_ripple_ratio', 'AC ripple, peak to peak', 'ratio'],
  ['ac_ramp_100ms_W_per_s', 'AC ramp over 100 ms', 'W/s'],
  ['ac_ramp_1s_W_per_s', 'AC ramp over 1 s', 'W/s'],
  ['ac_line_current_rms_A', 'line current, RMS', 'A'],
  ['tray_soc_min_ratio', 'tray charge, lowest', 'ratio'],
  ['tray_soc_max_ratio', 'tray charge, highest', 'ratio'],
  ['tray_capacitor_current_rms_A', 'tray capacitor, RMS', 'A'],
  ['battery_starts_count', 'battery starts', 'count'],
  ['link_bar_current_max_A', 'link bar current, peak', 'A'],
];

/** Name and number side by side, as many pairs in a row as the width takes. */
function metricsText(report: Report, width: number): string[] {
  const cells = metricWords.map(([key, words, unit]) => {
    const value = report.metrics[key];
    return [words, value === null ? 'none' : numberText(value, unit)] as const;
  });
  for (const { low_Hz, high_Hz, ripple_ratio } of report.bands) {
    const value = ripple_ratio === null ? 'none' : ripple(ripple_ratio);
    cells.push([`AC ripple ${low_Hz}–${high_Hz} Hz`, value]);
  }
  const pairs = width >= 110 ? 3 : width >= 76 ? 2 : 1;
  const perColumn = Math.ceil(cells.length / pairs);
  const rows = Array.from({ length: perColumn }, (_, r) =>
    Array.from({ length: pairs }, (_, p) => cells[p * perColumn + r] ?? ['', '']).flat(),
  );
  return alignColumns(rows, new Set([1, 3, 5])).map((row) => {
    const paired: string[] = [];
    for (let k = 0; k < row.length; k += 2) paired.push(`${row[k]} ${row[k + 1]}`);
    return paired.join('    ').trimEnd();
  });
}

/** Metrics that a finding of the same name sees otherwise. */
function apartText(report: Report, width: number): string[] {
  const pairs = judgedApart(report).map(
    ({ value, finding: { id, unit }, judged }) =>
      `${id} judges ${numberText(judged, unit)}, the whole window has ${numberText(value, unit)}`,
  );
  if (pairs.length === 0) return [];
  const text = `These are numbers of the whole window; limits leave out when they do not apply: ${pairs.join('; ')}.`;
  return wrap(text, width, '  ');
}

/** Less than this is what rounding leaves. */
const leastRipple_ratio = 1e-5;

function ripple(ratio: number): string {
  return ratio < leastRipple_ratio ? 'below 0.001 %' : numberText(ratio, 'ratio');
}

function energyText(report: Report): string {
  const { input_J, load_J, loss_J, stored_J, residual_ratio, residual_loss_ratio } = report.energy;
  const joules = (x: number | null): string => (x === null ? 'none' : numberText(x, 'J'));
  const drawn = stored_J !== null && stored_J < 0;
  const stored = drawn ? `- ${joules(-stored_J)} from storage` : `+ ${joules(stored_J)} stored`;
  const open = (x: number | null): string => (x === null ? 'none' : x === 0 ? '0' : x.toExponential(1));
  return (
    `energy  ${joules(input_J)} in = ${joules(load_J)} load + ${joules(loss_J)} lost ${stored}; ` +
    `open ${open(residual_ratio)} of throughput, ${open(residual_loss_ratio)} of losses`
  );
}

function engineText(report: Report): string {
  const { step_s, steps, states, nodes, mode_retries, wall_s, realtime_ratio } = report.engine;
  const speed =
    wall_s === null || realtime_ratio === null
      ? ''
      : `; ${wall_s.toFixed(2)} s, ${numberText(realtime_ratio, '')} times real time`;
  return `engine  ${steps} steps from ${numberText(step_s, 's')}, ${states} states, ${nodes} nodes, ${mode_retries} retried${speed}`;
}

function loadText(report: Report, width: number): string[] {
  return report.load.statement.flatMap((sentence, k) =>
    wrap(`${k === 0 ? 'load    ' : '        '}${sentence}`, width, '          '),
  );
}

function span(time_s: number): string {
  return `${Number(time_s.toFixed(3))} s`;
}
