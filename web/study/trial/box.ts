/** A trial that was chosen: the command that repeats it, and a button that runs it here. */
import { replayOf } from '../../../src/studies/trials/replay.ts';
import { copied } from '../../copied.ts';
import { html } from '../../dom.ts';
import type { StudyPage } from '../study-page.ts';
import type { AskedTrial } from './runner.ts';

export function trialBox({ runner }: Pick<StudyPage, 'runner'>, asked: AskedTrial): HTMLElement {
  const command = copied(
    replayOf(asked.trial),
    'Its run by command (with --out DIR it is kept, buswake view DIR makes its page):',
  );
  if (runner === null) return command;
  const button = html('button', { type: 'button', class: 'run-here' }, 'Run this one here');
  button.addEventListener('click', () => void runner.run(asked, button));
  return html('div', { class: 'trial-box' }, button, command);
}

/** The same, closed until it is asked for: of trials in a list. */
export function foldedTrial(page: Pick<StudyPage, 'runner'>, asked: AskedTrial): HTMLElement {
  return html('details', {}, html('summary', {}, `Run of ${asked.name}`), trialBox(page, asked));
}
