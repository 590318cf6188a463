/** What is refused is said in the words of the command line. */
import { BadInput, formatProblems } from '../../src/base/problem.ts';
import { html } from '../dom.ts';
import { Cancelled } from './engine.ts';

/** Carries out `work`; false where it was refused or cancelled, which `said` then tells. */
export async function saying(said: HTMLElement, work: () => Promise<void>): Promise<boolean> {
  try {
    await work();
    return true;
  } catch (error) {
    if (error instanceof Cancelled) said.replaceChildren(html('p', { class: 'note' }, 'Cancelled.'));
    else if (error instanceof BadInput) said.replaceChildren(refused(formatProblems(error.problems)));
    else {
      said.replaceChildren(refused(`The engine broke: ${String(error)}`));
      throw error;
    }
    return false;
  }
}

function refused(words: string): HTMLElement {
  return html('pre', { class: 'refused' }, words);
}
