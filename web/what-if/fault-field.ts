/** A fault of the choice that a matrix of faults has: what, on which unit, when, and when it comes back. */
import { formatQuantity } from '../../src/base/quantity.ts';
import { type OccurrenceKind, occurrences } from '../../src/scenario/occurrences.ts';
import type { Change } from '../../src/scenario/scenario.ts';
import { faultKinds, faultOn, faultUnits } from '../../src/studies/matrix/faults.ts';
import { html } from '../dom.ts';
import type { Offer } from '../engine/worker/offer.ts';
import type { Field } from './field.ts';

/** Where in the judged window a fault begins, and where it ends unless asked otherwise. */
const [begins, ends] = [0.3, 0.6];

export function faultField(offer: Pick<Offer, 'eventUnits'>, window: Window_s, changed: () => void): Field {
  const kinds = faultKinds.filter((kind) => faultUnits(kind, offer).length > 0);
  const kind = html(
    'select',
    { id: 'what-if-fault', 'aria-label': 'fault' },
    html('option', { value: '' }, 'none'),
    ...kinds.map((name) => html('option', { value: name, title: occurrences[name].means }, name)),
  );
  const unit = html('select', { 'aria-label': 'unit that the fault strikes', disabled: true });
  const at = instant('when the fault happens', window, begins);
  const back = instant('when it comes back', window, ends);
  const backLabel = html('label', {}, 'back at ', back);
  const about = html('p', { class: 'note' });
  const chosen = (): OccurrenceKind | null => kinds.find((name) => name === kind.value) ?? null;
  const variant = (name: OccurrenceKind) =>
    faultOn(name, unit.value, { at: at.value.trim(), back: back.value.trim() });
  const show = (): void => {
    const name = chosen();
    for (const field of [unit, at, back]) field.disabled = name === null;
    // Most faults stay: only what comes back asks when.
    backLabel.hidden = name === null || variant(name).changes.filter(isEvent).length < 2;
    about.textContent = name === null ? '' : (variant(name).about ?? '');
  };
  kind.addEventListener('input', () => {
    const name = chosen();
    const units = name === null ? [] : faultUnits(name, offer);
    unit.replaceChildren(...units.map((one) => html('option', { value: one }, one)));
  });
  for (const field of [kind, unit, at, back])
    field.addEventListener('input', () => {
      show();
      changed();
    });
  show();
  return {
    element: html(
      'div',
      { class: 'fault' },
      html('span', {}, kind, unit),
      html('span', {}, html('label', {}, 'at ', at), backLabel),
      about,
    ),
    changes: () => {
      const name = chosen();
      return name === null ? [] : variant(name).changes;
    },
    reset() {
      kind.value = '';
      show();
    },
  };
}

function isEvent({ path }: Change): boolean {
  return path === 'events.add';
}

interface Window_s {
  readonly from_s: number;
  readonly to_s: number;
}

function instant(words: string, { from_s, to_s }: Window_s, part: number): HTMLInputElement {
  const at_s = from_s + part * (to_s - from_s);
  return html('input', {
    type: 'text',
    'aria-label': words,
    value: formatQuantity(at_s, 'time', 2),
    spellcheck: 'false',
    autocomplete: 'off',
  });
}
