/** The change as a command, to be copied. */
import { html } from './dom.ts';

/** A page does not know how its reader calls the tool: of a checkout nothing is installed. */
export const inCheckout = 'in a checkout npm run -s buswake -- takes the place of buswake';

/** A command with a button that copies it. */
export function copied(text: string, note: string): HTMLElement {
  const code = html('code', { tabindex: 0 }, text);
  const button = html('button', { type: 'button' }, 'Copy');
  button.addEventListener('click', async () => {
    button.textContent = (await toClipboard(text)) ? 'Copied' : 'Marked: copy it by the keyboard';
    if (button.textContent !== 'Copied') getSelection()?.selectAllChildren(code);
  });
  return html('div', { class: 'command' }, html('p', { class: 'note' }, noteOn(text, note)), code, button);
}

function noteOn(text: string, note: string): string {
  return text.startsWith('buswake ') ? `${note.replace(/:$/, '')}; ${inCheckout}:` : note;
}

async function toClipboard(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}
