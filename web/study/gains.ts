/** The page of a gains map: each point by its letter and weight, the chosen one marked, its edges and proof. */
import { letterOf, letterWords, standingOf } from '../../src/studies/gains/accept.ts';
import { gainsEnd } from '../../src/studies/gains/judge.ts';
import { gainsSentence } from '../../src/studies/gains/paper.ts';
import type { GainsReport } from '../../src/studies/gains/report.ts';
import { html } from '../dom.ts';
import { answerIn, panel, table } from './parts.ts';

export function showGains(answer: HTMLElement, parts: HTMLElement, report: GainsReport): void {
  const { recommended, confirmation, requirements, remarks } = report;
  answerIn(
    answer,
    recommended === null ? 'no point recommended' : 'point recommended',
    gainsEnd(report) === 'passed',
    `${gainsSentence(report)}.`,
    `${report.about}. ${remarks.join(' ')}`,
  );
  panel(parts, 'Map', letterWords, mapOf(report));
  if (recommended !== null) {
    panel(
      parts,
      'Distance to the edge',
      'last acceptable value along each axis, the other held',
      table(
        ['', 'side', 'value', 'relative to the chosen'],
        recommended.edges.map((edge) => [
          edge.path,
          edge.side,
          `${edge.text}${edge.beyond === null ? ', where the map ends' : `; ${edge.beyond} is not`}`,
          edge.factor === null ? '–' : `× ${edge.factor.toPrecision(3)}`,
        ]),
      ),
    );
  }
  if (confirmation !== null) {
    panel(
      parts,
      'Time-domain check',
      'the scenario at the chosen point, with limits, quantum, dead band and modes',
      html('p', {}, confirmation.summary),
      html('code', {}, confirmation.replay),
    );
  }
  panel(
    parts,
    'What a supplier must meet',
    'and how it is tested',
    table(
      ['parameter', 'requirement', 'why', 'test'],
      requirements.map(({ path, text, why, test }) => [path, text, why, test]),
    ),
  );
}

function mapOf({ axes, cells, recommended }: GainsReport): HTMLElement {
  const [a, b] = axes;
  const detail = html(
    'p',
    { class: 'detail', 'aria-live': 'polite' },
    'Point at a cell, or move to it with the keyboard.',
  );
  const number = (x: number | null, unit: string): string =>
    x === null ? '–' : `${Number(x.toPrecision(3))}${unit}`;
  const rows = a.values.map((value, x) =>
    html(
      'tr',
      {},
      html('th', { scope: 'row' }, value),
      ...b.values.map((other, y) => {
        const cell = cells[x * b.values.length + y]!;
        const chosen = recommended !== null && recommended.place[0] === x && recommended.place[1] === y;
        const words = [
          `${a.path} ${value}, ${b.path} ${other}: ${cell.lacks ?? 'acceptable'}.`,
          `Damping ${number(cell.damping_ratio, '')} at ${number(cell.damping_Hz, ' Hz')} and ${number(cell.damping_fast_ratio, '')} at ${number(cell.damping_fast_Hz, ' Hz')};`,
          `share: distance from −1 ${number(cell.clearance_ratio, '')}, settles in ${number(cell.settling_s, ' s')}, overshoots by ${number(cell.overshoot_ratio, '')}, steady error ${number(cell.steady_error_ratio, '')}.`,
        ].join(' ');
        const kind = standingOf(cell);
        const weight = Math.max(0, Math.min(1, cell.clearance_ratio ?? 0.5));
        const button = html(
          'button',
          {
            type: 'button',
            class: `cell small-cell ${kind}${chosen ? ' chosen' : ''}`,
            style: `--weight:${Math.round(100 * weight)}%`,
            'aria-label': words,
          },
          chosen ? '◎' : letterOf(cell),
        );
        const show = (): void => {
          detail.textContent = words;
        };
        button.addEventListener('pointerenter', show);
        button.addEventListener('focus', show);
        return html('td', {}, button);
      }),
    ),
  );
  const head = html('caption', {}, `${a.path} down; ${b.path} across, ${b.values[0]} to ${b.values.at(-1)}`);
  return html('div', { class: 'wide' }, html('table', { class: 'map' }, head, ...rows), detail);
}
