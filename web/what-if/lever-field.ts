/** A value as a field: a text as `--set` takes it, and a slider where it is a number. */
import { formatQuantity } from '../../src/base/quantity.ts';
import { html } from '../dom.ts';
import type { Lever } from '../engine/worker/lever.ts';
import { placeOf, valueAt } from '../engine/worker/range.ts';
import type { Field } from './field.ts';

/** Steps of a slider from end to end. */
const steps = 200;
/** Digits of a value that a slider writes. */
const digits = 3;

/** Id of the field of a path. */
export function fieldId(path: string): string {
  return `what-if-${path}`;
}

export function leverField(lever: Lever, changed: () => void): Field {
  const { path, means, text, words } = lever;
  const input = words === null ? textInput(lever) : choice(words, text, path);
  const slider = words === null ? sliderOf(lever, input) : null;
  input.addEventListener('input', () => {
    mark();
    changed();
  });
  const element = html(
    'div',
    { class: 'lever' },
    html('label', { for: input.id }, html('code', {}, ...breakable(path)), html('small', {}, means)),
    slider?.element ?? html('span'),
    input,
  );
  const isChanged = (): boolean => input.value.trim() !== text;
  const mark = (): void => {
    element.classList.toggle('changed', isChanged());
  };
  return {
    element,
    changes: () => (isChanged() ? [{ path, value: input.value.trim() }] : []),
    reset() {
      input.value = text;
      slider?.reset();
      mark();
    },
  };
}

/** A long path may break behind its dots. */
function breakable(path: string): (string | HTMLElement)[] {
  return path.split('.').flatMap((part, k) => (k === 0 ? [part] : ['.', html('wbr'), part]));
}

function textInput({ path, text, quantity }: Lever): HTMLInputElement {
  return html('input', {
    type: 'text',
    id: fieldId(path),
    value: text,
    spellcheck: 'false',
    autocomplete: 'off',
    placeholder: quantity === null && text === '' ? 'as it is' : null,
  });
}

function choice(words: readonly string[], text: string, path: string): HTMLSelectElement {
  const options = text === '' ? ['', ...words] : words;
  const select = html(
    'select',
    { id: fieldId(path) },
    ...options.map((word) => html('option', { value: word }, word === '' ? 'several' : word)),
  );
  select.value = text;
  return select;
}

/** A slider that writes into the text; typing moves it no more than to an end. */
function sliderOf(
  { path, quantity }: Lever,
  input: HTMLInputElement | HTMLSelectElement,
): { readonly element: HTMLInputElement; reset(): void } | null {
  if (quantity === null || quantity.range === null) return null;
  const { range, dimension, value } = quantity;
  const start = String(Math.round(steps * placeOf(value, range)));
  const element = html('input', { type: 'range', min: 0, max: steps, 'aria-label': `${path}, slider` });
  element.value = start;
  element.addEventListener('input', () => {
    const at = valueAt(Number(element.value) / steps, range);
    input.value = formatQuantity(at, dimension, dimension === 'count' ? undefined : digits);
    input.dispatchEvent(new Event('input'));
  });
  return {
    element,
    reset: () => {
      element.value = start;
    },
  };
}
