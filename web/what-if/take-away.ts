/** What is taken from the page: the change as a command, or the scenario as a file. */
import { html } from '../dom.ts';

/** A command with a button that copies it. */
export function copied(text: string, note: string): HTMLElement {
  const code = html('code', { tabindex: 0 }, text);
  const button = html('button', { type: 'button' }, 'Copy');
  button.addEventListener('click', async () => {
    button.textContent = (await toClipboard(text)) ? 'Copied' : 'Marked: copy it by the keyboard';
    if (button.textContent !== 'Copied') getSelection()?.selectAllChildren(code);
  });
  return html('div', { class: 'command' }, html('p', { class: 'note' }, note), code, button);
}

async function toClipboard(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}

/** Hands a text to the browser as a file to be kept. */
export function saveText(name: string, text: string): void {
  const link = html('a', {
    href: URL.createObjectURL(new Blob([text], { type: 'text/yaml' })),
    download: name,
  });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}
