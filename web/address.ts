/** What is looked at, kept in the address after #, so that a link shows the same stretch, moment and theme. */
import type { Lens } from './lens.ts';

/** Written when things have been still for so long: browsers refuse many changes a second [ms]. */
const still_ms = 250;

export interface Address {
  get(name: string): string | null;
  set(name: string, value: string | null): void;
}

/** The parts of the address by name; null takes one out. */
export function makeAddress(): Address {
  const parts = new URLSearchParams(location.hash.includes('=') ? location.hash.slice(1) : '');
  let timer = 0;
  const write = (): void => history.replaceState(null, '', `#${parts.toString().replaceAll('%2C', ',')}`);
  return {
    get: (name) => parts.get(name),
    set(name, value) {
      if (parts.get(name) === value) return;
      if (value === null) parts.delete(name);
      else parts.set(name, value);
      clearTimeout(timer);
      timer = window.setTimeout(write, still_ms);
    },
  };
}

/** Takes the lens to where the address says, and keeps the address where the lens goes. False: it says nothing. */
export function keepView(address: Address, lens: Lens): boolean {
  const [from, to] = numbersOf(address.get('view'));
  const [at] = numbersOf(address.get('at'));
  if (from !== undefined && to !== undefined && to > from) lens.show(from, to);
  if (at !== undefined) lens.pin(at);
  lens.watch(() => {
    const whole = lens.from_s <= lens.whole_s[0] && lens.to_s >= lens.whole_s[1];
    address.set('view', whole ? null : `${digits(lens.from_s)},${digits(lens.to_s)}`);
    address.set('at', lens.pinned ? digits(lens.cursor_s) : null);
  });
  return from !== undefined || at !== undefined;
}

function numbersOf(text: string | null): readonly number[] {
  return text === null ? [] : text.split(',').map(Number).filter(Number.isFinite);
}

/** To a tenth of a microsecond. */
function digits(t_s: number): string {
  return String(Number(t_s.toFixed(7)));
}
