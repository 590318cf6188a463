/** The response study on a terminal: margins, impedance, the modes that decide. */
import { digits } from '../../../base/digits.ts';
import { isNeutral } from '../../../studies/damping.ts';
import { cycleCells } from '../../../studies/response/cycles/cycle-words.ts';
import { deciding, modeWord, openModes } from '../../../studies/response/judge.ts';
import { marginCells, marginHeads, unstableWords } from '../../../studies/response/margin-words.ts';
import { ownerWords, settledWords, stateWords, threeDigits } from '../../../studies/response/paper.ts';
import type { LaidPoint } from '../../../studies/response/points.ts';
import { plainCurves, type ResponseReport } from '../../../studies/response/report.ts';
import { wrap } from '../columns.ts';
import type { Paint } from '../paint.ts';
import { tableText, wrappedTable } from './table-text.ts';

const width = 120;

/** Where it is settled, and whether every mode dies away. */
export function headText(title: string, response: ResponseReport, paint: Paint): string {
  const { growing, weak } = openModes(response);
  const colour = growing.length > 0 ? 'bad' : weak.length > 0 ? 'open' : 'good';
  return `${settledWords(title, response)}: ${paint(colour, stateWords(response))}`;
}

export function responseText(title: string, response: ResponseReport, paint: Paint): string {
  const { modes, loops, minor_loops } = response;
  const curves = plainCurves(response);
  const isStable = openModes(response).growing.length === 0;
  const lines = [headText(title, response, paint), '', 'Loop gains'];
  lines.push(
    ...wrappedTable(
      ['loop', ...marginHeads, ''],
      loops.map((loop) => [loop.name, ...marginCells(loop, isStable), loop.about]),
      paint,
      { right: new Set([1, 2, 3, 4, 5]), width },
    ),
    '',
    'Minor loop (everything else over the sled)',
    ...tableText(
      ['node', 'highest', 'at', 'Middlebrook', 'nearest to −1'],
      minor_loops.map((loop) => [
        loop.node,
        `${loop.highest_dB.toFixed(1)} dB`,
        `${threeDigits(loop.highest_Hz)} Hz`,
        loop.middlebrook,
        loop.clearance_ratio === null
          ? unstableWords(loop)
          : `${loop.clearance_ratio.toFixed(2)} at ${threeDigits(loop.clearance_Hz!)} Hz`,
      ]),
      paint,
    ),
    '',
    'Curves [dB]',
    ...tableText(
      ['', ...shown_Hz.map((f) => `${f} Hz`)],
      curves.map((curve) => [
        `${curve.name}${curve.unit === '' ? '' : ` (${curve.unit})`}`,
        ...shown_Hz.map((f) => at(curve.frequency_Hz, curve.gain_dB, f).toFixed(1)),
      ]),
      paint,
      new Set(shown_Hz.map((_, k) => k + 1)),
    ),
    '',
    'Modes that decide: the slowest, and the least damped that swing',
    ...wrappedTable(
      ['real', 'frequency', 'damping', 'time constant', 'count', '', 'owners'],
      deciding(modes).map((mode) => [
        `${threeDigits(mode.real_per_s)} 1/s`,
        mode.frequency_Hz > 0 ? `${threeDigits(mode.frequency_Hz)} Hz` : '–',
        mode.frequency_Hz > 0 ? mode.damping_ratio.toFixed(3) : '–',
        isNeutral(mode) ? '–' : duration(mode.time_constant_s),
        `× ${mode.count}`,
        modeWord(mode),
        ownerWords(mode),
      ]),
      paint,
      { right: new Set([0, 1, 2, 3, 4]), width },
    ),
    '',
    ...cyclesText(response.limit_cycles, paint),
    ...wrap(
      `${modes.length} modes up to ${threeDigits(curves[0]!.frequency_Hz.at(-1)!)} Hz of ${response.states} states; all with --json. Step ${duration(response.rung_s)}: it shifts the highest frequency by ${(100 * response.warping_ratio).toFixed(2)} %.`,
      width,
    ),
    ...response.remarks.flatMap((remark) => wrap(remark, width)),
  );
  return lines.join('\n');
}

/** Limit cycles: predicted, or why nothing is said. */
function cyclesText(cycles: ResponseReport['limit_cycles'], paint: Paint): readonly string[] {
  if (cycles.length === 0) return [];
  return [
    'Limit cycles by describing function',
    ...wrappedTable(['element', 'shelves', 'size', ''], cycles.map(cycleCells), paint, { width }),
    '',
  ];
}

/** Measured points beside the model, their phase by the turn that is nearest to its, and the worst of them by curve. */
export function pointsText(points: readonly LaidPoint[], paint: Paint): string {
  const signed = (x: number | null, digits: number): string =>
    x === null ? '–' : `${x < 0 ? '−' : '+'}${Math.abs(x).toFixed(digits)}`;
  const worst = (values: readonly (number | null)[]): number =>
    Math.max(0, ...values.map((value) => Math.abs(value ?? 0)));
  const names = [...new Set(points.map(({ curve }) => curve))];
  return [
    'Measured points less the model',
    ...tableText(
      ['curve', 'frequency', 'measured', '', 'model', '', 'error', ''],
      points.map((p) => [
        p.curve,
        `${threeDigits(p.frequency_Hz)} Hz`,
        `${signed(p.gain_dB, 2)} dB`,
        p.error_deg === null ? '–' : `${signed(p.model_deg + p.error_deg, 1)}°`,
        `${signed(p.model_dB, 2)} dB`,
        `${signed(p.model_deg, 1)}°`,
        `${signed(p.error_dB, 2)} dB`,
        p.error_deg === null ? '–' : `${signed(p.error_deg, 1)}°`,
      ]),
      paint,
      new Set([1, 2, 3, 4, 5, 6, 7]),
    ),
    ...names.map((name) => {
      const own = points.filter(({ curve }) => curve === name);
      return `  ${name}: at most ${worst(own.map((p) => p.error_dB)).toFixed(2)} dB and ${worst(own.map((p) => p.error_deg)).toFixed(1)}° apart over ${own.length} ${own.length === 1 ? 'point' : 'points'}`;
    }),
  ].join('\n');
}

const shown_Hz = [0.1, 0.5, 1, 3, 10, 20, 50, 100, 300, 1000, 5000, 20000];

function at(x: readonly number[], y: readonly (number | null)[], f: number): number {
  let k = x.findIndex((value) => value >= f * (1 - 1e-9));
  if (k <= 0) k = k < 0 ? x.length - 1 : 1;
  const along = (Math.log(f) - Math.log(x[k - 1]!)) / (Math.log(x[k]!) - Math.log(x[k - 1]!));
  const [before, after] = [y[k - 1] ?? Number.NEGATIVE_INFINITY, y[k] ?? Number.NEGATIVE_INFINITY];
  return before + Math.min(1, along) * (after - before);
}

function duration(seconds: number | null): string {
  if (seconds === null) return '–';
  const size = Math.abs(seconds);
  const sign = seconds < 0 ? '−' : '';
  if (size >= 1) return `${sign}${digits(size)} s`;
  if (size >= 1e-3) return `${sign}${digits(size * 1e3)} ms`;
  return `${sign}${digits(size * 1e6)} µs`;
}
