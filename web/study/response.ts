/** The page of a response study: modes in the plane, curves with their margins, then the numbers behind both. */

import { cycleCells } from '../../src/studies/response/cycles/cycle-words.ts';
import { injectedLines } from '../../src/studies/response/inject/points.ts';
import { openModes, responseEnd } from '../../src/studies/response/judge.ts';
import { marginCells, marginHeads, unstableWords } from '../../src/studies/response/margin-words.ts';
import { stateWords } from '../../src/studies/response/paper.ts';
import type { ResponseReport } from '../../src/studies/response/report.ts';
import { number } from './chart/axes.ts';
import { curveOf } from './curves.ts';
import { answerIn, panel, table } from './parts.ts';
import { planeOf } from './plane.ts';
import type { StudyPage } from './study-page.ts';
import { worstMargins } from './worst-margins.ts';

export function showResponse(page: StudyPage, report: ResponseReport): void {
  const { modes, loops, curves, measured, injected, over } = report;
  const { growing: grown, neutral } = openModes(report);
  const growing = grown.length;
  answerIn(
    page,
    growing > 0 ? 'unstable' : 'stable',
    responseEnd(report) === 'passed' ? 'pass' : 'fail',
    growing > 0
      ? `${growing} of ${modes.length} modes grow: ${stateWords(report)}.`
      : `${neutral.length === 0 ? 'All' : 'All but the neutral of'} ${modes.length} modes up to 20 kHz decay.`,
    `${report.about}; ${report.states} states, firmware and samples in flight among them.`,
  );
  const kinds = 'Dots: plant; rings: firmware takes part; squares grow.';
  panel(
    page,
    'Modes',
    `${kinds} Along a line the damping is the same; a heavy line is the least that is asked for: 0.3 below 1 kHz, 0.15 up to 10 kHz.`,
    planeOf(modes),
  );
  panel(
    page,
    'Curves',
    `${[
      'Gain above, phase below',
      ...(measured.length > 0 ? ['dots: measured, or put into runs'] : []),
      ...(over === null ? [] : ['band: between the gains at all worst points']),
    ].join('; ')}.`,
    ...curves.map((curve) =>
      curveOf(
        curve,
        measured.filter((point) => point.curve === curve.name),
        loops.find((loop) => loop.name === curve.name) ?? null,
        growing === 0,
        over?.bands.find((band) => band.curve === curve.name) ?? null,
      ),
    ),
  );
  if (injected.length > 0) panel(page, 'Put into runs', injectedLines(injected).join('; '));
  if (over !== null) worstMargins(page, over);
  panel(
    page,
    'Loop gains',
    'How much the gain of each may rise or fall, or lag or delay be added, before a mode grows. Of several loops at once the same for all, but for the disk: each by itself, in its own way.',
    loopTable(page, report),
  );
  panel(
    page,
    'Minor loop',
    'Impedance of everything else relative to that of the sled. A large magnitude is a warning, the distance from −1 decides.',
    minorTable(page, report),
  );
  panel(
    page,
    'Limit cycles',
    'What quanta, dead bands and slew limits let the cabinet hunt with, by describing function, or why nothing is said.',
    table(page, ['element', 'shelves', 'size', 'what is said'], report.limit_cycles.map(cycleCells)),
  );
  panel(page, 'Modes and their owners', 'Slowest first.', modeTable(page, report));
}

function loopTable(page: StudyPage, report: ResponseReport): HTMLElement {
  const isStable = openModes(report).growing.length === 0;
  return table(
    page,
    ['loop', 'opened', ...marginHeads],
    report.loops.map((loop) => [loop.name, loop.about, ...marginCells(loop, isStable)]),
  );
}

function minorTable(page: StudyPage, { minor_loops }: ResponseReport): HTMLElement {
  return table(
    page,
    ['node', 'highest', 'at', 'Middlebrook', 'nearest to −1'],
    minor_loops.map((loop) => [
      loop.node,
      measure(loop.highest_dB, 'dB'),
      measure(loop.highest_Hz, 'Hz'),
      loop.middlebrook,
      loop.clearance_ratio === null
        ? unstableWords(loop)
        : `${loop.clearance_ratio.toFixed(2)} at ${measure(loop.clearance_Hz, 'Hz')}`,
    ]),
  );
}

function modeTable(page: StudyPage, { modes }: ResponseReport): HTMLElement {
  return table(
    page,
    ['real part', 'frequency', 'damping', 'count', 'owners'],
    modes.map((mode) => [
      measure(mode.real_per_s, '1/s'),
      mode.frequency_Hz > 0 ? measure(mode.frequency_Hz, 'Hz') : '–',
      mode.frequency_Hz > 0 ? mode.damping_ratio.toFixed(3) : '–',
      `× ${mode.count}`,
      mode.owners
        .slice(0, 4)
        .map(({ name, share_ratio }) => `${Math.round(100 * share_ratio)} % ${name}`)
        .join(', '),
    ]),
  );
}

function measure(x: number | null, unit: string): string {
  return x === null ? '–' : `${number(x)} ${unit}`;
}
