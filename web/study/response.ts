/** The page of a response study: margins, modes in the plane, curves. */
import { openModes, responseEnd } from '../../src/studies/response/judge.ts';
import type { ResponseReport } from '../../src/studies/response/report.ts';
import { curveOf } from './curves.ts';
import { answerIn, panel, table } from './parts.ts';
import { planeOf } from './plane.ts';

export function showResponse(answer: HTMLElement, parts: HTMLElement, report: ResponseReport): void {
  const { modes, loops, minor_loops, curves, measured, remarks } = report;
  const growing = openModes(report).growing.length;
  const number = (x: number | null, unit: string, digits = 3): string =>
    x === null ? '–' : `${Number(x.toPrecision(digits))} ${unit}`.replace('-', '−');
  answerIn(
    answer,
    growing > 0 ? 'unstable' : 'stable',
    responseEnd(report) === 'passed',
    growing > 0
      ? `${growing} of ${modes.length} modes grow.`
      : `All ${modes.length} modes up to 20 kHz decay.`,
    `${report.about}; ${report.states} states, firmware and samples in flight among them. ${remarks.join(' ')}`,
  );
  panel(
    parts,
    'Loop gains',
    'margins of each loop, the others closed unless stated',
    table(
      ['loop', 'broken', 'crossover', 'phase margin', 'gain margin', 'nearest to −1'],
      loops.map((loop) => [
        loop.name,
        loop.about,
        loop.crossover_Hz === null ? 'stays below 1' : number(loop.crossover_Hz, 'Hz'),
        number(loop.phase_margin_deg, '°'),
        number(loop.gain_margin_dB, 'dB'),
        `${loop.clearance_ratio.toFixed(2)} at ${number(loop.clearance_Hz, 'Hz')}`,
      ]),
    ),
  );
  panel(
    parts,
    'Minor loop',
    'impedance of everything else relative to that of the sled; a large magnitude is a warning, the distance from −1 decides',
    table(
      ['node', 'highest', 'at', 'Middlebrook', 'nearest to −1'],
      minor_loops.map((loop) => [
        loop.node,
        number(loop.highest_dB, 'dB'),
        number(loop.highest_Hz, 'Hz'),
        loop.middlebrook,
        `${loop.clearance_ratio.toFixed(2)} at ${number(loop.clearance_Hz, 'Hz')}`,
      ]),
    ),
  );
  panel(
    parts,
    'Modes in the plane',
    'dots: plant; rings: firmware takes part; squares grow. Lines of equal damping. Point at a mode for its owners.',
    planeOf(modes),
  );
  panel(
    parts,
    'Curves',
    measured.length > 0 ? 'solid: gain; dashed: phase; dots: measured' : 'solid: gain; dashed: phase',
    ...curves.map((curve) =>
      curveOf(
        curve,
        measured.filter((point) => point.curve === curve.name),
      ),
    ),
  );
  panel(
    parts,
    'Modes and their owners',
    'slowest first',
    table(
      ['real', 'frequency', 'damping', 'count', 'owners'],
      modes.map((mode) => [
        number(mode.real_per_s, '1/s'),
        mode.frequency_Hz > 0 ? number(mode.frequency_Hz, 'Hz') : '–',
        mode.frequency_Hz > 0 ? mode.damping_ratio.toFixed(3) : '–',
        `× ${mode.count}`,
        mode.owners
          .slice(0, 4)
          .map(({ name, share_ratio }) => `${Math.round(100 * share_ratio)} % ${name}`)
          .join(', '),
      ]),
    ),
  );
}
