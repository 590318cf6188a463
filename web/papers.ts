/** What goes with the picture: inputs, changes, energy audit, engine, log, and what none of it covers. */

import { judgedApart } from '../src/analysis/judge/judged-apart.ts';
import { metricWords } from '../src/analysis/words/metric-words.ts';
import { counted } from '../src/base/counted.ts';
import type { Bundle } from '../src/bundle/format.ts';
import type { EnergyRow } from '../src/engine/result.ts';
import { html } from './dom.ts';
import type { Lens } from './lens.ts';
import { duration, moment, withUnit } from './numbers.ts';

export function showPapers(host: HTMLElement, lens: Lens, bundle: Bundle): void {
  host.append(metrics(bundle), inputs(bundle), energy(bundle), engine(bundle), log(lens, bundle));
}

function paper(title: string, note: string, ...children: readonly HTMLElement[]): HTMLElement {
  return html(
    'section',
    { class: 'paper' },
    html('h3', {}, title),
    html('p', { class: 'note' }, note),
    ...children,
  );
}

function metrics({ report }: Bundle): HTMLElement {
  const rows = metricWords.map(([metric, words, unit]) =>
    html(
      'tr',
      {},
      html('th', { scope: 'row' }, words),
      html('td', {}, withUnit(report.metrics[metric], unit)),
    ),
  );
  const { from, to } = report.window_s;
  const apart = judgedApart(report).map(
    ({ finding, judged }) => `${finding.id} leaves moments out and judges ${withUnit(judged, finding.unit)}`,
  );
  return paper(
    'Metrics',
    [`over the judged window, ${moment(from, 1)} to ${moment(to, 1)}`, ...apart].join('; '),
    html('table', {}, ...rows),
  );
}

function inputs({ report, scenario }: Bundle): HTMLElement {
  const files: HTMLElement[] = [];
  const changes: HTMLElement[] = [];
  for (const input of report.inputs) {
    if ('change' in input)
      changes.push(html('li', {}, html('code', {}, `${input.change.path} = ${input.change.value}`)));
    else
      files.push(
        html(
          'li',
          {},
          input.path,
          html('code', { class: 'sum', title: input.sha256 }, `SHA-256 ${input.sha256.slice(0, 16)}…`),
        ),
      );
  }
  const statement = report.load.statement.map((line) => html('li', {}, line));
  const none = changes.length === 0 ? [html('p', {}, 'None: as in the files.')] : [];
  return paper(
    'Inputs',
    `${scenario.about}`,
    html('ul', {}, ...files),
    html('h4', {}, 'Changes'),
    ...none,
    html('ul', {}, ...changes),
    ...(statement.length === 0 ? [] : [html('h4', {}, 'The recorded load'), html('ul', {}, ...statement)]),
  );
}

const kinds: readonly (readonly [EnergyRow['kind'], string])[] = [
  ['input', 'supplied'],
  ['load', 'to the load'],
  ['loss', 'lost'],
  ['stored', 'stored'],
];

/** Rows smaller than this share of the input are left out of the page; report.json has them. */
const negligible = 1e-7;

/** A row of the audit; its bar is the share of `whole`. */
function line(role: 'sum' | 'part', name: string, value: number, whole: number): HTMLElement {
  return html(
    'tr',
    { class: role },
    html('th', { scope: 'row' }, name),
    html('td', {}, withUnit(value, 'J')),
    share(value / whole),
  );
}

function energy({ report: { energy: e } }: Bundle): HTMLElement {
  const largest = Math.max(1, Math.abs(e.input_J ?? 0));
  const sums = { input: e.input_J, load: e.load_J, loss: e.loss_J, stored: e.stored_J };
  const body = kinds.flatMap(([kind, word]) => {
    const rows = merged(e.rows.filter((row) => row.kind === kind));
    const group = Math.max(...rows.map(([, value]) => Math.abs(value)), Math.abs(sums[kind] ?? 0));
    const shown = rows.filter(([, value]) => Math.abs(value) > negligible * largest);
    return [
      line('sum', word, sums[kind] ?? 0, largest),
      ...shown.map(([name, value]) => line('part', name, value, group)),
    ];
  });
  const open = (ratio: number | null): string => (ratio === null ? '–' : ratio.toExponential(1));
  const residual = `residual ${open(e.residual_ratio)} of the throughput, ${open(e.residual_loss_ratio)} of the losses`;
  return paper('Energy audit', residual.replaceAll('-', '−'), html('table', { class: 'energy' }, ...body));
}

/** Rows of one cause and kind of device added up, the largest first: S1, S2 … become one line. */
function merged(rows: readonly EnergyRow[]): readonly (readonly [string, number])[] {
  const sums = new Map<string, number>();
  for (const { owner, cause, energy_J } of rows) {
    const name = familyOf(owner, cause);
    sums.set(name, (sums.get(name) ?? 0) + energy_J);
  }
  return [...sums].sort(([, a], [, b]) => Math.abs(b) - Math.abs(a));
}

const families: Readonly<globalThis.Record<string, string>> = {
  S: 'shelves',
  T: 'trays',
  B: 'batteries',
  K: 'banks',
  F: 'feeders',
};

function familyOf(owner: string, cause: string): string {
  if (cause === 'bar' || owner.startsWith('bar '))
    return owner.includes('contact') ? 'sled contacts' : 'bars';
  if (/\.(output|shunt|ceramic|input)$/.test(owner)) return 'small capacitors';
  const own = owner.replace(/^[a-z]+ /, '');
  const letter = /^([A-Z])\d+$/.exec(own)?.[1] ?? '';
  const family = own.startsWith('sled-') ? 'sleds' : (families[letter] ?? own);
  return cause === 'change' || cause === 'sled' ? family : `${family}, ${cause}`;
}

function share(ratio: number): HTMLElement {
  const width = Math.min(100, 100 * Math.abs(ratio));
  return html(
    'td',
    { class: 'share' },
    html('span', { style: `width:${width.toFixed(2)}%`, 'aria-hidden': 'true' }),
  );
}

function engine({ report, result }: Bundle): HTMLElement {
  const { engine: e, tool_version, seed, status } = report;
  const rows: readonly (readonly [string, string])[] = [
    ['status', status],
    ['default step', duration(e.step_s)],
    ['steps', e.steps.toLocaleString('en')],
    ['states, nodes', `${e.states}, ${e.nodes}`],
    ['steps retried in eight substeps', String(e.mode_retries)],
    ['factorisations', result.counters.factorisations.toLocaleString('en')],
    ['wall time', e.wall_s === null ? '–' : duration(Number(e.wall_s.toPrecision(3)))],
    ['speed', e.realtime_ratio === null ? '–' : `${e.realtime_ratio.toPrecision(3)} × real time`],
    ['seed', String(seed)],
    ['tool version', tool_version],
  ];
  return paper(
    'Engine',
    'the same input gives the same bits',
    html(
      'table',
      {},
      ...rows.map(([name, value]) =>
        html('tr', {}, html('th', { scope: 'row' }, name), html('td', {}, value)),
      ),
    ),
  );
}

/** Longer logs are cut here; the bundle's log.json has all. */
const longest = 400;

function log(lens: Lens, { result }: Bundle): HTMLElement {
  const shown = result.log.slice(0, longest);
  const rows = shown.map(({ time_s, who, what, detail }) => {
    const go = html('button', { type: 'button', class: 'link' }, moment(time_s, 0.1));
    go.addEventListener('click', () => lens.pin(time_s));
    return html(
      'tr',
      {},
      html('td', {}, go),
      html('th', { scope: 'row' }, who),
      html('td', { class: 'kind' }, what),
      html('td', {}, detail),
    );
  });
  const more = result.log.length - shown.length;
  const note =
    result.log.length === 0
      ? 'no entries'
      : `${counted(result.log.length, 'entry', 'entries')}${more > 0 ? `, the first ${longest} shown; log.json has all` : ''}`;
  const section = paper(
    'Log',
    note,
    html('div', { class: 'scroll', tabindex: 0 }, html('table', { class: 'log' }, ...rows)),
  );
  section.classList.add('wide');
  return section;
}
