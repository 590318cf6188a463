/** Where a recording was taken, as far as lines above its rows or the names of its columns say. */
import { wordsOf } from '../../tables/columns/column-names.ts';
import type { HowRecorded } from './how-recorded.ts';

/** What they say, each with the line or the name that says it; null where none does, or where names differ. */
export interface StatedPlace {
  readonly side: Said<'dc' | 'ac'> | null;
  readonly at: Said<'device' | 'sled' | 'rack'> | null;
}

export interface Said<T> {
  readonly is: T;
  readonly name: string;
}

const sides: Readonly<Record<string, 'dc' | 'ac'>> = {
  ac: 'ac',
  mains: 'ac',
  wall: 'ac',
  inlet: 'ac',
  grid: 'ac',
  pdu: 'ac',
  dc: 'dc',
  bus: 'dc',
  busbar: 'dc',
  accelerator: 'dc',
  gpu: 'dc',
};

const places: Readonly<Record<string, 'device' | 'sled' | 'rack'>> = {
  accelerator: 'device',
  gpu: 'device',
  device: 'device',
  card: 'device',
  sled: 'sled',
  rack: 'rack',
  cabinet: 'rack',
};

/** `names`: of the columns that are read as power, current, or channel. */
export function statedPlace(how: Pick<HowRecorded, 'side' | 'at'>, names: readonly string[]): StatedPlace {
  return {
    side: how.side === null ? saidBy(names, sides) : { is: how.side, name: `# side ${how.side}` },
    at: how.at === null ? saidBy(names, places) : { is: how.at, name: `# at ${how.at}` },
  };
}

function saidBy<T>(names: readonly string[], words: Readonly<Record<string, T>>): Said<T> | null {
  const said = names.flatMap((name) =>
    wordsOf(name).flatMap((word) => (Object.hasOwn(words, word) ? [{ is: words[word]!, name }] : [])),
  );
  const [first] = said;
  return first === undefined || said.some(({ is }) => is !== first.is) ? null : first;
}
