/** Parts of the page that a narrow screen opens with folded: their heading stands, a button shows the rest. */
import { html } from './dom.ts';

/** As in the style sheet: one column below this. */
const narrow = '(max-width: 700px)';

const openers = new Map<Element, (open: boolean) => void>();

/** Lets a section be folded; it begins so where the screen is narrow. */
export function makeFolding(section: HTMLElement): void {
  const title = section.getAttribute('aria-label') ?? section.querySelector('h3')?.textContent ?? '';
  const button = html('button', { type: 'button', class: 'fold' });
  const set = (open: boolean): void => {
    section.classList.toggle('folded', !open);
    button.textContent = open ? 'hide' : 'show';
    button.setAttribute('aria-expanded', String(open));
    button.setAttribute('aria-label', `${open ? 'hide' : 'show'} ${title}`);
  };
  button.addEventListener('click', () => set(section.classList.contains('folded')));
  section.querySelector('h3')?.after(button);
  openers.set(section, set);
  set(!matchMedia(narrow).matches);
}

/** Opens the section, where it is one that folds. */
export function unfold(section: Element): void {
  openers.get(section)?.(true);
}
