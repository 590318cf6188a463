/** What a key that holds a text may be, where not every text will do. */
import { families, placedFamilies } from '../scenario/tables.ts';
import { listed } from '../scenario/text/nearest.ts';
import { sources } from '../scenario/text/sourced.ts';
import { studyWordKeys } from '../studies/written/read-study.ts';

const modelFile =
  'the name of a model file in YAML, beside the file that names it; an option names it from where it is given';
const number = 'a number with its unit, as value has it';
const scale = 'a share: 50 % or 0.5';
const whole = (from: number, to: number): string => `a whole number from ${from} to ${to}`;
const yesOrNo = 'yes or no';
const changes = 'a list of changes, each path = value: [trays.T4.fitted = no, outage = yes]';
const variants = `names, each with ${changes}`;
const columns = 'names of columns of the recording, with commas between';
const column = 'the name of a column of the recording';

/** By path. */
const forms: Readonly<Record<string, string>> = {
  limits: 'the name of a file: limits in YAML, or a specification in CSV',
  ...Object.fromEntries(families.map((family) => [`${family}.model`, modelFile])),
  'shelves.feeder': 'the name of a feeder of the cabinet: F1',
  ...Object.fromEntries(
    placedFamilies.flatMap((family) => [
      [
        `${family}.add`,
        family === 'shelves'
          ? 'a new name, its feeder and its place: S9 on F1 in A after S4, in A first or in A last'
          : 'a new name and its place: T11 in A after T5, in A first or in A last',
      ],
      [`${family}.move`, 'a unit and its place: T4 to A after S1, to A first or to A last'],
      [`${family}.count`, 'a whole number from 0 to as many as fill names in the cabinet file'],
    ]),
  ),
  model: `${listed(['feeder', 'shelf', 'tray', 'bank', 'battery', 'sled', 'bars', 'firmware'])}, or of other files what they are`,
  like: modelFile,
  value: 'a number with its unit, or a word where the key holds one',
  source: listed(sources),
  distribution: 'uniform or triangular',
  common: yesOrNo,
  tolerance: 'a share: 10 % or 0.1',
  ...Object.fromEntries(['low', 'high', 'end_of_life', 'cold', 'hot'].map((key) => [key, number])),
  'monitoring.polls': 'a list of units that are fitted, each once: [S1, S2]',
  'protection.guards': 'a list of units that are fitted: [sled-7, sled-8]',
  'protection.curve':
    'points of rising currents and falling times: { 1.3: 3600 s, 2: 60 s }, or the name of a CSV file',
  'load.recorded.file': 'the name of a recording: delimited text, JSON lines or Parquet',
  'load.reading.time': column,
  'load.reading.power': columns,
  'load.reading.current': columns,
  'load.reading.voltage': `${column}, or a voltage: 50 V`,
  'load.reading.channel': column,
  'load.reading.sentinel': 'values as the recording writes them, with commas between: -1, 9999',
  'load.reading.unit': 'a unit of power: W, kW or MW',
  'load.reading.where': 'COLUMN=VALUE, with commas between',
  'study.study': listed(Object.keys(studyWordKeys)),
  'study.scenario': 'the name of a scenario file, beside the file of the study',
  'study.changes': changes,
  'study.vary': 'paths, each with values: 6 to 14, 20 mF to 160 mF in 15, a | b | c; or a name with designs',
  'study.figures': 'kinds, each with cost, mass or rack_units: { value: 1250, source: assumed, why: … }',
  'study.cases': 'names, each with a scenario, changes or both',
  'study.corners': variants,
  'study.redundancy': variants,
  'study.levers': `${variants}; a value × 1.1 is that multiple of what each unit has`,
  'study.faults': variants,
  'study.every_fault': '{ at: 1 s, units: one or each, back: 2 s }',
  'study.scale': 'a list of paths: [load.low, load.high]',
  'study.tolerances':
    'paths, each with a tolerance: uniform by 5 %, normal by 3 %, uniform from 0.5 ms to 20 ms',
  'study.least': 'product',
  'study.objectives': 'one or two of cost, mass, rack_units, losses, headroom and yield, with commas between',
  'study.from': scale,
  'study.to': scale,
  'study.within': scale,
  'study.duty': 'shares, with commas between: 30 %, 50 %, 70 %',
  'study.period': 'times, with commas between: 0.8 s, 1.6 s',
  'study.pairs': yesOrNo,
  'study.moments': whole(1, 64),
  'study.shows': 'names of limits, with commas between: link-balance, section-balance',
  'study.repeat': whole(1, 3653),
  'study.begin': 'steady or cold',
  'study.stretches': `names in turn, each with for (a time: 8 h) and ${changes}`,
  'study.samples': whole(1, 500_000),
  'study.seed': whole(0, 2 ** 31),
  'study.sampling': 'latin-hypercube or plain',
  'study.half_width': 'a share above 0 and below 1: 2 %',
  'study.of': 'headroom, or the name of a metric',
  'study.models': yesOrNo,
  'study.rare': whole(200, 100_000),
};

/** What a text of this key may be; null where any will do. */
export function textForm(path: string): string | null {
  return forms[path] ?? null;
}
