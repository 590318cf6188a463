/**
 * Runs a trial of the study in the page, one at a time, by the engine and from the inputs that the page carries. What comes of
 * it stands below the part of the page that it was asked in, in place of what stood there before.
 */
import { formatQuantity } from '../../../src/base/quantity.ts';
import { type Letter, letterOf, letterWords } from '../../../src/studies/trials/states.ts';
import type { ChangedScenario } from '../../../src/studies/trials/trial.ts';
import { html } from '../../dom.ts';
import { Engine } from '../../engine/engine.ts';
import { keptStudy } from '../../engine/kept.ts';
import { saying } from '../../engine/saying.ts';
import type { Orders } from '../../engine/worker/order.ts';
import type { Lens } from '../../lens.ts';
import { forgetGone } from '../../taken/plot.ts';
import type { Words } from '../words.ts';
import { showOutcome } from './outcome.ts';

export interface AskedTrial {
  /** Which one it is, for people. */
  readonly name: string;
  readonly trial: ChangedScenario;
  /** How it came out in the study; null where the study did not judge it. */
  readonly letter: Letter | null;
}

export class TrialRunner {
  readonly #words: Words;
  readonly #engine = new Engine('study', keptStudy);
  readonly #title = html('h3');
  readonly #cancel = html('button', { type: 'button' }, 'Cancel');
  readonly #progress = html('progress', { max: 1, 'aria-label': 'progress of the run' });
  readonly #busy = html('div', { class: 'run', hidden: true }, this.#cancel, this.#progress);
  readonly #said = html('div', { class: 'said', 'aria-live': 'polite' });
  readonly #outcome = html('div', { class: 'outcome-of-trial' });
  readonly #section = html(
    'section',
    { class: 'panel study trial', id: 'trial', 'aria-label': 'the run of a trial' },
    this.#title,
    this.#busy,
    this.#said,
    this.#outcome,
  );
  #lens: Lens | null = null;
  /** Runs that were asked for: of an earlier one nothing is shown any more. */
  #asked = 0;

  constructor(words: Words) {
    this.#words = words;
    this.#cancel.addEventListener('click', () => this.#engine.cancel());
  }

  /** Runs it and shows it below the part of the page that `from` stands in. */
  async run(asked: AskedTrial, from: HTMLElement): Promise<void> {
    const number = ++this.#asked;
    // What is still running is not waited for.
    this.#engine.cancel();
    this.#title.textContent = `Run here: ${this.#words.text(asked.name)}`;
    this.#clear();
    from.closest('section')?.after(this.#section);
    this.#section.scrollIntoView({ block: 'nearest' });
    this.#isBusy(true);
    const said = html('div');
    this.#said.replaceChildren(said);
    await saying(said, async () => {
      const done = await this.#engine.ask('trial', asked.trial, (fraction) => {
        if (number === this.#asked) this.#progress.value = fraction;
      });
      if (number === this.#asked) this.#show(done, asked, said);
    });
    if (number === this.#asked) this.#isBusy(false);
  }

  /** Draws again, in other colours. */
  refresh(): void {
    this.#lens?.refresh();
  }

  #show(done: Orders['trial']['answer'], { letter }: AskedTrial, said: HTMLElement): void {
    const own = letterOf(done.outcome);
    const took = formatQuantity(done.wall_s, 'time', 2);
    said.append(html('p', { class: 'note' }, `Run in ${took}: ${letterWords[own]}.`));
    if (letter !== null && own !== letter)
      said.append(
        html(
          'p',
          { class: 'warned' },
          `In the study: ${letterWords[letter]}. Here: ${letterWords[own]}. The page was made by another build of the tool: carry out the study again.`,
        ),
      );
    this.#lens = showOutcome(this.#outcome, done, this.#words);
    this.#section.scrollIntoView({ block: 'start' });
  }

  #clear(): void {
    this.#outcome.replaceChildren();
    forgetGone();
    this.#lens = null;
  }

  #isBusy(busy: boolean): void {
    this.#busy.hidden = !busy;
    this.#progress.removeAttribute('value');
  }
}
