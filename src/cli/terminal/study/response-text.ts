/** The response study on a terminal: margins, impedance, the modes that decide. */
import type { Mode } from '../../../linear/modes.ts';
import type { Scenario } from '../../../scenario/scenario.ts';
import type { LaidPoint } from '../../../studies/response/points.ts';
import type { Response } from '../../../studies/response/response.ts';
import type { Paint } from '../paint.ts';
import { tableText } from './table-text.ts';

/** Damping asked for below 1 kHz, and from 1 to 10 kHz. Common practice, no source. */
export const dampingAsked = { below_1kHz: 0.3, below_10kHz: 0.15 } as const;

/** Modes above this are reported and not judged: the averaged model ends there. */
const judged_Hz = 1e4;

export function lacksDamping({ frequency_Hz, damping_ratio }: Mode): boolean {
  if (frequency_Hz > judged_Hz) return damping_ratio <= 0;
  return damping_ratio < (frequency_Hz < 1e3 ? dampingAsked.below_1kHz : dampingAsked.below_10kHz);
}

export function responseText(scenario: Scenario, response: Response, brief: boolean, paint: Paint): string {
  const { modes, loops, minorLoops, curves } = response;
  const growing = modes.filter(({ real_per_s }) => real_per_s >= 0);
  const weak = modes.filter((mode) => mode.real_per_s < 0 && lacksDamping(mode));
  const state =
    growing.length > 0
      ? paint(
          'bad',
          `UNSTABLE: ${growing.length} growing ${growing.length === 1 ? 'mode' : 'modes'}, ${ownerWords(growing[0]!)}`,
        )
      : weak.length > 0
        ? paint(
            'open',
            `stable, ${weak.length} weakly damped: ${number(weak[0]!.frequency_Hz)} Hz at ${weak[0]!.damping_ratio.toFixed(3)}, ${ownerWords(weak[0]!)}`,
          )
        : paint('good', 'stable and damped');
  const head = `${scenario.title}, settled at ${(response.load_W / 1e3).toFixed(1)} kW: ${state}`;
  if (brief) return head;
  const lines = [head, '', 'Loop gains'];
  lines.push(
    ...tableText(
      ['loop', 'crossover', 'phase margin', 'gain margin', 'at', 'nearest to −1', ''],
      loops.map((loop) => [
        loop.name,
        loop.crossover_Hz === null ? 'none: below 1' : `${number(loop.crossover_Hz)} Hz`,
        loop.phase_margin_deg === null ? '–' : `${loop.phase_margin_deg.toFixed(1)}°`,
        loop.gain_margin_dB === null ? '–' : `${loop.gain_margin_dB.toFixed(1)} dB`,
        loop.phase_crossover_Hz === null ? '–' : `${number(loop.phase_crossover_Hz)} Hz`,
        `${loop.clearance_ratio.toFixed(2)} at ${number(loop.clearance_Hz)} Hz`,
        loop.about,
      ]),
      paint,
      new Set([1, 2, 3, 4]),
    ),
    '',
    'Minor loop (everything else over the sled)',
    ...tableText(
      ['node', 'highest', 'at', 'Middlebrook', 'nearest to −1'],
      minorLoops.map((loop) => [
        loop.node,
        `${loop.highest_dB.toFixed(1)} dB`,
        `${number(loop.highest_Hz)} Hz`,
        loop.middlebrook,
        `${loop.clearance_ratio.toFixed(2)} at ${number(loop.clearance_Hz)} Hz`,
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
    ...tableText(
      ['real', 'frequency', 'damping', 'time constant', 'like it', '', 'owners'],
      deciding(modes).map((mode) => [
        `${number(mode.real_per_s)} 1/s`,
        mode.frequency_Hz > 0 ? `${number(mode.frequency_Hz)} Hz` : '–',
        mode.frequency_Hz > 0 ? mode.damping_ratio.toFixed(3) : '–',
        duration(mode.time_constant_s),
        `× ${mode.count}`,
        mode.real_per_s >= 0
          ? 'grows'
          : mode.frequency_Hz > judged_Hz
            ? 'beyond the model'
            : lacksDamping(mode)
              ? 'weak'
              : '',
        ownerWords(mode),
      ]),
      paint,
      new Set([0, 1, 2, 3, 4]),
    ),
    '',
    `${modes.length} modes up to ${number(curves[0]!.frequency_Hz.at(-1)!)} Hz of ${response.states} states; all with --json. Step ${duration(response.rung_s)}: it shifts the highest frequency by ${(100 * response.warping_ratio).toFixed(2)} %.`,
    ...response.remarks,
  );
  return lines.join('\n');
}

/** Measured points beside the model, and the worst of them by curve. */
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
        `${number(p.frequency_Hz)} Hz`,
        `${signed(p.gain_dB, 2)} dB`,
        p.phase_deg === null ? '–' : `${signed(p.phase_deg, 1)}°`,
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

function at(x: readonly number[], y: readonly number[], f: number): number {
  let k = x.findIndex((value) => value >= f * (1 - 1e-9));
  if (k <= 0) k = k < 0 ? x.length - 1 : 1;
  const along = (Math.log(f) - Math.log(x[k - 1]!)) / (Math.log(x[k]!) - Math.log(x[k - 1]!));
  return y[k - 1]! + Math.min(1, along) * (y[k]! - y[k - 1]!);
}

/** A sleeping pack's own warmth and polarisation drive nothing: its modes are left to the whole list. */
const ownPack = /(temperature degC|polarisation V)$/;

/** The six slowest, and the eight least damped that swing. */
export function deciding(modes: readonly Mode[]): Mode[] {
  const acting = modes.filter(({ owners }) => !owners.every(({ name }) => ownPack.test(name)));
  const slow = acting.slice(0, 6);
  const swinging = acting
    .filter((mode) => mode.frequency_Hz > 0 && mode.frequency_Hz <= judged_Hz && !slow.includes(mode))
    .sort((a, b) => a.damping_ratio - b.damping_ratio)
    .slice(0, 8);
  return [...slow, ...swinging];
}

function ownerWords({ owners }: Mode): string {
  return owners
    .slice(0, 3)
    .map(({ name, share_ratio }) => `${Math.round(100 * share_ratio)} % ${name}`)
    .join(', ');
}

function number(x: number): string {
  const size = Math.abs(x);
  return (size >= 1000 ? x.toFixed(0) : x.toPrecision(3)).replace('-', '−');
}

function duration(seconds: number): string {
  const size = Math.abs(seconds);
  const sign = seconds < 0 ? '−' : '';
  if (!Number.isFinite(size)) return '–';
  if (size >= 1) return `${sign}${size.toPrecision(3)} s`;
  if (size >= 1e-3) return `${sign}${(size * 1e3).toPrecision(3)} ms`;
  return `${sign}${(size * 1e6).toPrecision(3)} µs`;
}
