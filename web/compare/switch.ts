/** The switch between wakes over each other and beside each other; the choice stands in the address. */
import type { Address } from '../address.ts';
import { html } from '../dom.ts';

const choices = ['over', 'beside'] as const;

/** The heading with the switch, what is to be known of both, then both, of which one is shown. */
export function makeSwitch(
  over: HTMLElement,
  beside: HTMLElement,
  address: Address,
  notes: readonly HTMLElement[],
): readonly HTMLElement[] {
  const parts = { over, beside };
  const buttons = choices.map((choice) => {
    const button = html('button', { type: 'button', class: 'quiet' }, choice);
    button.addEventListener('click', () => {
      address.set('wakes', choice === 'over' ? null : choice);
      apply(choice);
    });
    return { choice, button };
  });
  const apply = (chosen: (typeof choices)[number]): void => {
    for (const { choice, button } of buttons) {
      parts[choice].hidden = choice !== chosen;
      button.setAttribute('aria-pressed', String(choice === chosen));
    }
  };
  const addressed = (): void => apply(address.get('wakes') === 'beside' ? 'beside' : 'over');
  address.watch(addressed);
  addressed();
  const controls = html(
    'div',
    { class: 'controls', role: 'group', 'aria-label': 'wakes over or beside each other' },
    ...buttons.map(({ button }) => button),
  );
  return [html('header', {}, html('h3', {}, 'Both wakes'), controls), ...notes, over, beside];
}
