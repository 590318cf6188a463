/** What is looked at, kept in the address after #, so that a link shows the same stretch, moment and theme. */
import type { Lens } from './lens.ts';

/** Written when things have been still for so long: browsers refuse many changes a second [ms]. */
const still_ms = 250;

export interface Address {
  get(name: string): string | null;
  /** null takes the part out. */
  set(name: string, value: string | null): void;
  /** Runs when somebody else has changed it: a link within the page, the reader, the browser's back. */
  watch(listener: () => void): void;
}

export function makeAddress(): Address {
  let parts = partsOf(location.hash);
  let timer = 0;
  const listeners: (() => void)[] = [];
  const write = (): void => history.replaceState(null, '', `#${parts.toString().replaceAll('%2C', ',')}`);
  addEventListener('hashchange', () => {
    // A link to a place within the page says nothing about the view.
    if (!location.hash.includes('=')) return;
    parts = partsOf(location.hash);
    for (const listener of listeners) listener();
  });
  return {
    get: (name) => parts.get(name),
    set(name, value) {
      if (parts.get(name) === value) return;
      if (value === null) parts.delete(name);
      else parts.set(name, value);
      clearTimeout(timer);
      timer = window.setTimeout(write, still_ms);
    },
    watch: (listener) => listeners.push(listener),
  };
}

function partsOf(hash: string): URLSearchParams {
  return new URLSearchParams(hash.includes('=') ? hash.slice(1) : '');
}

/** Takes the lens to where the address says, or else to `opening_s`, and keeps the address where the lens goes. */
export function keepView(address: Address, lens: Lens, opening_s: number | null): void {
  const apply = (): void => {
    const [from, to] = numbersOf(address.get('view'));
    const [at] = numbersOf(address.get('at'));
    if (from !== undefined && to !== undefined && to > from) lens.show(from, to);
    else lens.reset();
    if (at !== undefined) lens.pin(at);
  };
  apply();
  if (opening_s !== null && address.get('view') === null && address.get('at') === null) lens.pin(opening_s);
  address.watch(apply);
  lens.write(() => {
    const whole = lens.from_s <= lens.whole_s[0] && lens.to_s >= lens.whole_s[1];
    address.set('view', whole ? null : `${digits(lens.from_s)},${digits(lens.to_s)}`);
    address.set('at', lens.pinned ? digits(lens.cursor_s) : null);
  });
}

function numbersOf(text: string | null): readonly number[] {
  return text === null ? [] : text.split(',').map(Number).filter(Number.isFinite);
}

/** To a tenth of a microsecond. */
function digits(t_s: number): string {
  return String(Number(t_s.toFixed(7)));
}
