/** The fields of the panel, what is said of them, and what came of a run. */
import { BadInput, formatProblem } from '../../src/base/problem.ts';
import { formatQuantity } from '../../src/base/quantity.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import type { Change } from '../../src/scenario/scenario.ts';
import { compare } from '../../src/studies/compare/compare.ts';
import { difference, titlesOf } from '../compare/difference.ts';
import { Overlay } from '../compare/overlay.ts';
import { copied } from '../copied.ts';
import { html } from '../dom.ts';
import { Engine } from '../engine/engine.ts';
import { isOfThisBuild, keptRun } from '../engine/kept.ts';
import { saying } from '../engine/saying.ts';
import type { Lever } from '../engine/worker/lever.ts';
import type { Ran } from '../engine/worker/order.ts';
import type { Lens } from '../lens.ts';
import { makeRecord, type Record } from '../record.ts';
import { saveFile } from '../save-file.ts';
import { commandOf } from './command.ts';
import { type Form, makeForm } from './form.ts';

const words = { room: 'what-if', before: 'as run', after: 'changed' } as const;

const otherBuild =
  'The run was made by another build of the tool than this page: what differs may come from that as well as from a change. The command verify says whether it does.';

export class Trial {
  readonly #lens: Lens;
  readonly #record: Record;
  readonly #bundle: Bundle;
  readonly #engine: Engine<'open'>;
  readonly #fields: HTMLElement = html('div');
  readonly #said: HTMLElement = html('div', { class: 'said', 'aria-live': 'polite' });
  readonly #outcome: HTMLElement = html('div', { class: 'changed-to' });
  readonly #run = html('button', { type: 'button', id: 'what-if-run' }, 'Run');
  readonly #cancel = html('button', { type: 'button', hidden: true }, 'Cancel');
  readonly #reset = html('button', { type: 'button' }, 'Reset');
  readonly #progress = html('progress', { max: 1, hidden: true, 'aria-label': 'progress of the run' });
  /** Said where what is shown is not of the fields as they stand. */
  readonly #earlier = html('p', { class: 'note', hidden: true }, 'Of the change that was run before:');
  #overlay: Overlay | null = null;
  #running = false;
  #shown: readonly Change[] = [];

  constructor(host: HTMLElement, lens: Lens, record: Record, bundle: Bundle) {
    this.#lens = lens;
    this.#record = record;
    this.#bundle = bundle;
    this.#engine = new Engine('open', () => keptRun(bundle.provenance));
    this.#cancel.addEventListener('click', () => this.#engine.cancel());
    host.querySelector('.trial')?.remove();
    host.append(html('div', { class: 'trial' }, this.#fields, this.#said, this.#earlier, this.#outcome));
  }

  /** Offers the fields; false where the engine refuses the run as it is. */
  async open(): Promise<boolean> {
    return saying(this.#said, async () => {
      const form = makeForm(await this.#engine.opened(), {
        window: this.#bundle.result.window,
        changed: () => this.#preview(form),
        leverOf: (path) => this.#leverOf(path),
      });
      this.#run.addEventListener('click', () => this.#try(form));
      this.#reset.addEventListener('click', () => {
        form.reset();
        this.#preview(form);
      });
      form.element.addEventListener('keydown', ({ key, target }) => {
        if (key === 'Enter' && target instanceof HTMLInputElement && target.list === null) this.#run.click();
      });
      const buttons = html('div', { class: 'run' }, this.#run, this.#cancel, this.#reset, this.#progress);
      const other = (await isOfThisBuild(this.#bundle.provenance))
        ? []
        : [html('p', { class: 'warned' }, otherBuild)];
      this.#fields.replaceChildren(...other, form.element, buttons);
      this.#preview(form);
    });
  }

  /** The change as it stands, as a command; what is wrong with it is said when it is run. */
  #preview(form: Form): void {
    const changes = changesOf(form);
    const isSame = changes?.length === 0;
    this.#run.disabled = this.#running || isSame;
    this.#earlier.hidden =
      this.#shown.length === 0 || JSON.stringify(changes) === JSON.stringify(this.#shown);
    this.#said.replaceChildren(...(changes === null || isSame ? [] : [this.#taken(changes)]));
  }

  async #leverOf(path: string): Promise<Lever | null> {
    let lever: Lever | null = null;
    await saying(this.#said, async () => {
      lever = await this.#engine.ask('lever', path);
    });
    return lever;
  }

  async #try(form: Form): Promise<void> {
    this.#busy(true);
    await saying(this.#said, async () => {
      const changes = form.changes();
      const ran = await this.#engine.ask('run', changes, (fraction) => {
        this.#progress.value = fraction;
      });
      this.#show(ran, changes);
    });
    this.#busy(false);
  }

  #busy(busy: boolean): void {
    this.#running = busy;
    this.#run.disabled = busy;
    this.#cancel.hidden = !busy;
    this.#progress.hidden = !busy;
    this.#progress.value = 0;
  }

  #show(ran: Ran, changes: readonly Change[]): void {
    const { report, result, scenario, warnings, wall_s } = ran;
    const known = new Set(this.#bundle.scenario.warnings.map(formatProblem));
    const fresh = warnings.map(formatProblem).filter((words) => !known.has(words));
    this.#said.replaceChildren(
      html('p', { class: 'note' }, `Run in ${formatQuantity(wall_s, 'time', 2)}.`),
      ...fresh.map((words) => html('pre', { class: 'warned' }, words)),
      this.#taken(changes),
    );
    this.#shown = changes;
    this.#earlier.hidden = true;
    const { verdict, tables } = difference(
      compare(this.#bundle, { report, scenario }),
      titlesOf(this.#bundle.report, report),
      words,
    );
    if (this.#record.bucketCount > 0) this.#overlay ??= new Overlay(this.#lens, this.#record, words);
    const drawn = this.#overlay === null ? [] : [this.#overlay.element];
    this.#outcome.replaceChildren(...verdict, ...drawn, ...tables);
    this.#overlay?.show(makeRecord(result.recording));
    this.#lens.refresh();
  }

  /** The change to take along: as a command, and as a file where the scenario can say it. */
  #taken(changes: readonly Change[]): HTMLElement {
    const { request } = this.#bundle.provenance;
    const { text, whole } = commandOf(request, changes);
    const note = whole ? 'The same by command:' : 'Add this to the command that made the run:';
    const element = copied(text, note);
    if (request.load === null) {
      const save = html('button', { type: 'button' }, 'Save as a scenario');
      save.title = `keep it beside ${request.scenario}: the files it names are found from there`;
      save.addEventListener('click', () =>
        saying(this.#said, async () => {
          const written = await this.#engine.ask('write', changes);
          if (written !== null)
            saveFile(`${this.#bundle.scenario.id}-what-if.yaml`, new Blob([written], { type: 'text/yaml' }));
        }),
      );
      element.append(save);
    }
    return element;
  }
}

/** Null where a text is none of its kind. */
function changesOf(form: Form): readonly Change[] | null {
  try {
    return form.changes();
  } catch (error) {
    if (error instanceof BadInput) return null;
    throw error;
  }
}
