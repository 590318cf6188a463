/** The page of two runs: what became of the verdict, both wakes over or beside each other, then all that differs. */

import { parseLoose } from '../../src/bundle/json.ts';
import { changedInputs } from '../../src/studies/compare/changed-inputs.ts';
import type { ComparedRun, Comparison } from '../../src/studies/compare/compare.ts';
import { type Side, unpackSide } from '../../src/studies/compare/side.ts';
import { windowWords } from '../../src/studies/compare/window-words.ts';
import { type Address, makeAddress } from '../address.ts';
import { carried } from '../carried.ts';
import { byId, html } from '../dom.ts';
import { listenToKeys } from '../keys.ts';
import { type Lens, makeLens } from '../lens.ts';
import { openPage } from '../opening.ts';
import { makeRecord } from '../record.ts';
import { makeRuler } from '../ruler.ts';
import { addMenu } from '../taken/menu.ts';
import { allPlots } from '../taken/plot.ts';
import { startTheme } from '../theme.ts';
import { endOf, unlike } from './alike.ts';
import { makeBeside } from './beside.ts';
import { difference, titlesOf } from './difference.ts';
import { Overlay } from './overlay.ts';
import { makeSwitch } from './switch.ts';

const words = { room: 'over', before: 'before', after: 'after' } as const;

async function start(): Promise<void> {
  const comparison = parseLoose(await textOf('comparison.json')) as Comparison;
  const [before, after] = [await sideOf('before'), await sideOf('after')];
  const title = titleOf(before, after);
  byId('title').textContent = title;
  byId('about').textContent = 'before and after';
  document.title = title;
  const { verdict, tables } = difference(comparison, titlesOf(before.report, after.report), words);
  const judged = windowWords(comparison.before, comparison.after);
  byId('answer').append(
    ...verdict,
    ...outcomes(comparison.before, comparison.after),
    ...(judged === null
      ? []
      : [html('p', { class: 'small' }, `${judged[0]!.toUpperCase()}${judged.slice(1)}.`)]),
  );
  byId('tables').append(html('h3', {}, 'Limits and metrics'), ...tables);
  showInputs(byId('inputs'), comparison);
  const address = makeAddress();
  const lens = showWakes(before, after, address);
  startTheme(address, () => lens?.refresh());
}

async function textOf(name: string): Promise<string> {
  return new TextDecoder().decode(await carried(name));
}

async function sideOf(name: 'before' | 'after'): Promise<Side> {
  return unpackSide({ text: await textOf(`${name}.json`), bytes: await carried(`${name}.bin`) });
}

function titleOf({ report: a }: Side, { report: b }: Side): string {
  const [was, is] = [a.scenario.title, b.scenario.title];
  return was === is ? `Two runs of ${was}` : `${was}, and ${is}`;
}

/** What became of the cabinet, where that is another. */
function outcomes(before: ComparedRun, after: ComparedRun): readonly HTMLElement[] {
  const told = ({ outcome: { kind, because } }: ComparedRun): string =>
    `${kind.replaceAll('_', ' ')} (${because})`;
  if (told(before) === told(after)) return [];
  return [html('p', { class: 'small' }, `Outcome: ${told(before)} → ${told(after)}`)];
}

function showInputs(host: HTMLElement, { inputs, basis }: Comparison): void {
  const list = (lines: readonly string[]): HTMLElement =>
    html('ul', { class: 'changes' }, ...lines.map((line) => html('li', {}, line)));
  host.append(
    html('h3', {}, inputs.length === 0 ? 'No input changed' : 'What changed in the inputs'),
    list(changedInputs(inputs)),
  );
  const rests = [
    ...basis.gone.map(({ what }) => `no longer rests on: ${what}`),
    ...basis.come.map(({ what }) => `now rests on: ${what}`),
  ];
  if (rests.length > 0) host.append(html('h4', {}, 'What the verdict rests on'), list(rests));
}

/** Null where neither has anything to draw: both broke down at once. */
function showWakes(before: Side, after: Side, address: Address): Lens | null {
  const records = [makeRecord(before.recording), makeRecord(after.recording)] as const;
  const [was, is] = records;
  if (was.bucketCount === 0 || is.bucketCount === 0) {
    byId('wakes').append(
      html('p', { class: 'note' }, 'One of the runs broke down at once: no wakes to lay over each other.'),
    );
    return null;
  }
  const lens = makeLens(
    Math.min(...records.map(({ edges_s }) => edges_s[0]!)),
    Math.max(...records.map(endOf)),
  );
  // The strip of the whole run is that of the longer one.
  if (endOf(was) > endOf(is)) makeRuler(byId('ruler'), lens, was, before);
  else makeRuler(byId('ruler'), lens, is, after);
  const over = new Overlay(lens, was, words);
  over.show(is);
  const notes = unlike(was, is, words).map((note) => html('p', { class: 'note' }, note));
  const beside = makeBeside(lens, was, is, words);
  byId('wakes').append(...makeSwitch(over.element, beside, address, notes));
  const name = `${before.report.scenario.id}-against-${after.report.scenario.id}`;
  for (const plot of allPlots()) addMenu(plot, lens, name);
  const moments = [...before.result.log, ...after.result.log].map(({ time_s }) => time_s);
  listenToKeys(
    lens,
    moments.sort((a, b) => a - b),
  );
  lens.refresh();
  return lens;
}

openPage(start);
