/** The catalogue of parts: what each shipped model is, its ratings, where its numbers come from, what derives from what. */
import { readdirSync, readFileSync } from 'node:fs';
import { formatQuantity } from '../src/base/quantity.ts';
import { readTextFile } from '../src/disk/read-file.ts';
import { unitShape } from '../src/scenario/sections/units.ts';
import { type Family, families, modelOf, numbersOf } from '../src/scenario/tables.ts';
import { Desk } from '../src/scenario/text/desk.ts';
import { type Model, openModel } from '../src/scenario/text/model-file.ts';
import { sources } from '../src/scenario/text/sourced.ts';

const folder = 'models';

/** What a data sheet of such a part says first. */
const ratings: Readonly<Record<Family, readonly string[]>> = {
  feeders: ['line_voltage', 'frequency', 'breaker_current', 'short_circuit_power'],
  shelves: ['module_count', 'module_power', 'set_point', 'droop'],
  trays: ['power_limit', 'capacitance', 'esr', 'rated_voltage', 'capacitor_current_rms_rating'],
  banks: ['capacitance', 'esr', 'rated_voltage', 'ripple_current_rating'],
  batteries: ['module_count', 'module_power', 'energy', 'pack_voltage', 'charge_power'],
  sleds: ['peak_power', 'input_capacitance', 'cut_off_voltage'],
};

/** Files that name another one in a line of this key. */
function naming(file: string, key: string): string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .filter((name) =>
      new RegExp(`\\b${key}: ${file.replaceAll('.', '\\.')}`, 'm').test(
        readFileSync(`${folder}/${name}`, 'utf8'),
      ),
    );
}

function links(files: readonly string[]): string {
  return files.map((file) => `[${file.replace(/\.yaml$/, '')}](${file})`).join(', ');
}

function readShipped(file: string, family: Family): Model {
  const desk = new Desk(readTextFile);
  const origin = { file: `${folder}/README.md`, line: 1, column: 1 };
  const model = openModel(origin.file, { kind: 'leaf', text: file, origin }, unitShape(family), '', desk);
  if (model === null || desk.problems.some(({ severity }) => severity === 'error'))
    throw new RangeError(`${file} cannot be read`);
  return model;
}

function rowOf(file: string, family: Family): string {
  const { title, values } = readShipped(file, family);
  const table = numbersOf(family);
  const rated = ratings[family].flatMap((key) => {
    const [spec, value] = [table[key], values.get(key)?.value];
    return spec === undefined || typeof value !== 'number'
      ? []
      : [`${key.replaceAll('_', ' ')} ${formatQuantity(value, spec.dimension, 6)}`];
  });
  const notes = [...values.values()].map(({ note }) => note);
  const from = sources.flatMap((source) => {
    const count = notes.filter((note) => note.source === source).length;
    return count === 0 ? [] : [`${count} ${source}`];
  });
  const ranged = notes.filter(({ low, high }) => low !== null && high !== null).length;
  const like = /^like: (\S+)$/m.exec(readFileSync(`${folder}/${file}`, 'utf8'))?.[1];
  const cells = [
    `[${file.replace(/\.yaml$/, '')}](${file})`,
    title,
    rated.join(', '),
    `${from.join(', ')}; ${ranged === 0 ? 'none' : ranged} with a range`,
    like === undefined ? '' : links([like]),
    links(naming(file, 'like')),
    links(naming(file, 'model')),
  ];
  return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
}

/** The page, whole. */
export function partPage(): string {
  const files = readdirSync(folder).filter((name) => name.endsWith('.yaml'));
  const sections = families.map((family) => {
    const own = files
      .filter((file) =>
        new RegExp(`^model: ${modelOf[family]}$`, 'm').test(readFileSync(`${folder}/${file}`, 'utf8')),
      )
      .sort();
    const head = '| model | what it is | ratings | its numbers | like | like it are | in |';
    return `## ${family[0]!.toUpperCase()}${family.slice(1)}\n\n${head}\n|${'---|'.repeat(7)}\n${own.map((file) => rowOf(file, family)).join('\n')}\n`;
  });
  return `${pageHead}\n${sections.join('\n')}`;
}

const pageHead = `<!-- written by: npm run -s check:numbers, from the models beside it -->

# Parts

Every model of a unit that comes with the project, all of our own invention. A number is published, derived, assumed or measured, as
its file says beside it with the citation or the reason; what one with a range may be \`spread\` draws and \`fit\` adjusts. What a model
that is like another one does not state is as it is there. Bars, firmware and limits: [models](README.md); every key: [keys](keys.md).
`;
