/** Scenarios as they come with the project, one of whose files was spoilt, or changes with what nobody would write. */
import { readdirSync } from 'node:fs';
import { shortText } from '../../src/base/short-text.ts';
import { sha256 } from '../../src/bundle/sum.ts';
import { readTextFile } from '../../src/disk/read-file.ts';
import { type ReadOptions, readScenario } from '../../src/scenario/read.ts';
import type { Change } from '../../src/scenario/scenario.ts';
import { Draw } from '../random-cabinets/draw.ts';
import { edited } from './edits.ts';
import { intruders } from './intruders.ts';

export interface Spoilt {
  readonly scenario: string;
  /** The file that was spoilt, and how it reads now; null where only changes were asked for. */
  readonly file: string | null;
  readonly text: string;
  readonly changes: readonly Change[];
}

const folder = 'scenarios';
const units = ['', 'V', 'kW', 'ms', 'A', 'F', '%'];
const names = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .sort()
  .map((name) => `${folder}/${name}`);

/** The scenario's own file, all that it names, and every path that a change may name; looked up once each. */
const known = new Map<string, { readonly files: readonly string[]; readonly paths: readonly string[] }>();

function knownOf(scenario: string) {
  const before = known.get(scenario);
  if (before !== undefined) return before;
  const files: string[] = [];
  const { paths } = readScenario(scenario, {
    files: (path) => {
      files.push(path);
      return readTextFile(path);
    },
  });
  const now = { files: [...new Set(files)], paths };
  known.set(scenario, now);
  return now;
}

/** Number `number` of the series `seed`: the same for ever, whichever others are drawn. */
export function spoiltScenario(seed: number, number: number): Spoilt {
  const draw = new Draw(seed, number);
  const scenario = draw.pick(names);
  const { files, paths } = knownOf(scenario);
  if (draw.chance(0.2)) {
    const changes = Array.from({ length: draw.whole(1, 3) }, () => ({
      path: draw.chance(0.9) ? draw.pick(paths) : draw.pick(intruders),
      value: draw.chance(0.5)
        ? draw.pick(intruders)
        : `${draw.acrossDecades(1e-3, 1e6).toPrecision(3)} ${draw.pick(units)}`,
    }));
    return { scenario, file: null, text: '', changes };
  }
  const file = draw.chance(0.4) ? files[0]! : draw.pick(files);
  return { scenario, file, text: edited(textOf(file), draw, 4), changes: [] };
}

/** How the reader is to read it; `more`: changes behind its own. */
export function readingOf({ file, text, changes }: Spoilt, more: readonly Change[] = []): ReadOptions {
  const files = (path: string) => {
    if (path !== file) return readTextFile(path);
    // As the disk gives it: bytes that are no UTF-8 are told as such.
    const bytes = Buffer.from(text);
    return { ...shortText(bytes), sha256: sha256(bytes) };
  };
  return { files, changes: [...changes, ...more] };
}

function textOf(file: string): string {
  const { text } = readTextFile(file);
  if (text === null) throw new RangeError(`${file} is no text`);
  return text;
}
