/** The fields: what is offered first, a fault, and any other value by its path. */
import type { Change } from '../../src/scenario/scenario.ts';
import { html } from '../dom.ts';
import type { Lever } from '../engine/worker/lever.ts';
import type { Offer } from '../engine/worker/offer.ts';
import { faultField } from './fault-field.ts';
import type { Field } from './field.ts';
import { fieldId, leverField } from './lever-field.ts';
import { loadField } from './load-field.ts';

export interface Form {
  readonly element: HTMLElement;
  /** Everything that is changed, in the order of the form. Throws BadInput where a text is none of its kind. */
  changes(): readonly Change[];
  reset(): void;
}

export interface FormOptions {
  readonly window: Parameters<typeof faultField>[1];
  changed(): void;
  /** The value of a path that is typed; null where it is refused, and that is said. */
  leverOf(path: string): Promise<Lever | null>;
}

export function makeForm(offer: Offer, { window, changed, leverOf }: FormOptions): Form {
  const fields: Field[] = [];
  const added = (field: Field): HTMLElement => {
    fields.push(field);
    return field.element;
  };
  const group = (title: string, ...parts: readonly HTMLElement[]): HTMLElement =>
    html('fieldset', {}, html('legend', {}, title), ...parts);
  const load = loadField(offer.load, changed);
  const others = group('Any other value');
  others.append(
    pathPicker(offer.paths, async (path) => {
      const there = document.getElementById(fieldId(path));
      if (there !== null) return there.focus();
      const lever = await leverOf(path);
      if (lever === null) return;
      others.append(added(leverField(lever, changed)));
    }),
  );
  const element = html(
    'div',
    { class: 'levers' },
    ...(load === null ? [] : [group('Load', added(load))]),
    ...offer.groups
      .filter(({ levers }) => levers.length > 0)
      .map(({ title, levers }) => group(title, ...levers.map((lever) => added(leverField(lever, changed))))),
    group('Fault', added(faultField(offer, window, changed))),
    others,
  );
  return {
    element,
    changes: () => fields.flatMap((field) => field.changes()),
    reset() {
      for (const field of fields) field.reset();
    },
  };
}

function pathPicker(paths: readonly string[], add: (path: string) => Promise<void>): HTMLElement {
  const list = html(
    'datalist',
    { id: 'what-if-paths' },
    ...paths.map((path) => html('option', { value: path })),
  );
  const input = html('input', {
    type: 'text',
    list: 'what-if-paths',
    placeholder: 'for example trays.T4.fitted',
    'aria-label': 'path of a value',
    spellcheck: 'false',
    autocomplete: 'off',
  });
  const button = html('button', { type: 'button' }, 'Add');
  const take = async (): Promise<void> => {
    const path = input.value.trim();
    if (path === '') return;
    await add(path);
    input.value = '';
  };
  button.addEventListener('click', () => void take());
  input.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    void take();
  });
  return html('div', { class: 'add' }, input, button, list);
}
