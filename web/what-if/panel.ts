/** What if: the kept run again under changes, in the page itself, with the engine that made it. */
import { BadInput, formatProblem, formatProblems } from '../../src/base/problem.ts';
import { formatQuantity } from '../../src/base/quantity.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import type { Change } from '../../src/scenario/scenario.ts';
import { html } from '../dom.ts';
import type { Lens } from '../lens.ts';
import { makeRecord, type Record } from '../record.ts';
import { commandOf } from './command.ts';
import { difference } from './difference.ts';
import type { Ran } from './engine/order.ts';
import { Cancelled, Engine } from './engine.ts';
import { type Form, makeForm } from './form.ts';
import { Overlay } from './overlay.ts';
import { copied, saveText } from './take-away.ts';

/** Nothing is unpacked or started before it is asked for. */
export function showWhatIf(host: HTMLElement, lens: Lens, record: Record, bundle: Bundle): void {
  const start = html('button', { type: 'button', id: 'what-if-start' }, 'Change something');
  host.append(
    html(
      'header',
      {},
      html('h3', {}, 'What if'),
      html('p', {}, 'run it again under changes, here: the page holds the engine and all inputs'),
      html('div', { class: 'controls' }, start),
    ),
  );
  start.addEventListener('click', async () => {
    start.disabled = true;
    const opened = await new Trial(host, lens, record, bundle).open();
    if (opened) start.remove();
    else start.disabled = false;
  });
}

class Trial {
  readonly #lens: Lens;
  readonly #record: Record;
  readonly #bundle: Bundle;
  readonly #engine: Engine;
  readonly #fields: HTMLElement = html('div');
  readonly #said: HTMLElement = html('div', { class: 'said', 'aria-live': 'polite' });
  readonly #outcome: HTMLElement = html('div', { class: 'changed-to' });
  readonly #run = html('button', { type: 'button', id: 'what-if-run' }, 'Run');
  readonly #cancel = html('button', { type: 'button', hidden: true }, 'Cancel');
  readonly #reset = html('button', { type: 'button' }, 'Reset');
  readonly #progress = html('progress', { max: 1, hidden: true, 'aria-label': 'progress of the run' });
  #overlay: Overlay | null = null;

  constructor(host: HTMLElement, lens: Lens, record: Record, bundle: Bundle) {
    this.#lens = lens;
    this.#record = record;
    this.#bundle = bundle;
    this.#engine = new Engine(bundle.provenance);
    this.#cancel.addEventListener('click', () => this.#engine.cancel());
    host.querySelector('.trial')?.remove();
    host.append(html('div', { class: 'trial' }, this.#fields, this.#said, this.#outcome));
  }

  /** Offers the fields; false where the engine refuses the run as it is. */
  async open(): Promise<boolean> {
    return this.#saying(async () => {
      const form = makeForm(await this.#engine.offer(), {
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
      this.#fields.replaceChildren(form.element, buttons);
      this.#preview(form);
    });
  }

  /** The change as it stands, as a command; what is wrong with it is said when it is run. */
  #preview(form: Form): void {
    let changes: readonly Change[] = [];
    try {
      changes = form.changes();
    } catch (error) {
      if (!(error instanceof BadInput)) throw error;
    }
    this.#run.disabled = changes.length === 0;
    this.#said.replaceChildren(...(changes.length === 0 ? [] : [this.#taken(changes)]));
  }

  async #leverOf(path: string): ReturnType<Parameters<typeof makeForm>[1]['leverOf']> {
    let lever: Awaited<ReturnType<Parameters<typeof makeForm>[1]['leverOf']>> = null;
    await this.#saying(async () => {
      lever = await this.#engine.ask('lever', path);
    });
    return lever;
  }

  async #try(form: Form): Promise<void> {
    this.#busy(true);
    await this.#saying(async () => {
      const changes = form.changes();
      const ran = await this.#engine.ask('run', changes, (fraction) => {
        this.#progress.value = fraction;
      });
      this.#show(ran, changes);
    });
    this.#busy(false);
  }

  #busy(busy: boolean): void {
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
    const { verdict, tables } = difference(this.#bundle, { report, scenario });
    if (this.#record.bucketCount > 0) this.#overlay ??= new Overlay(this.#lens, this.#record);
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
        this.#saying(async () => {
          const written = await this.#engine.ask('write', changes);
          if (written !== null) saveText(`${this.#bundle.scenario.id}-what-if.yaml`, written);
        }),
      );
      element.append(save);
    }
    return element;
  }

  /** Runs `work`; what is refused is said in the words of the command line. */
  async #saying(work: () => Promise<void>): Promise<boolean> {
    try {
      await work();
      return true;
    } catch (error) {
      if (error instanceof Cancelled) this.#said.replaceChildren(html('p', { class: 'note' }, 'Cancelled.'));
      else if (error instanceof BadInput)
        this.#said.replaceChildren(html('pre', { class: 'refused' }, formatProblems(error.problems)));
      else {
        this.#said.replaceChildren(html('pre', { class: 'refused' }, `The engine broke: ${String(error)}`));
        throw error;
      }
      return false;
    }
  }
}
