/** Recordings of many forms, and what a broken disk, a logger or a hand makes of them. All drawn from a seed. */
import { Random } from '../../src/loads/random.ts';

/** A text of one form, about 40 rows. */
type Form = (random: Random) => string;

const rows = (count: number, of: (k: number) => string): string =>
  `${Array.from({ length: count }, (_, k) => of(k)).join('\n')}\n`;
const watts = (random: Random): number => Math.round(1000 + 400 * random.uniform());

const forms: readonly Form[] = [
  (r) => `t_s,power_W\n${rows(40, (k) => `${k / 10},${watts(r)}`)}`,
  (r) => `t [ms],P1 [kW],P2 [kW]\n${rows(40, (k) => `${100 * k},${watts(r) / 1000},${watts(r) / 1000}`)}`,
  (r) =>
    `ts_ns;gpu;power_mW\n${rows(60, (k) => `${1900000000 + (k >> 1)}000000000;${k % 2};${1000 * watts(r)}`)}`,
  (r) =>
    `Datum;Uhrzeit;P_W\n${rows(40, (k) => `17.03.2030;10:00:${String(k).padStart(2, '0')};${watts(r)},5`)}`,
  (r) => `# t_s,power_W\n${rows(40, (k) => `${k},${watts(r)}`)}`,
  (r) => rows(40, (k) => `{"t_s": ${k / 10}, "board": {"power_W": ${watts(r)}}}`),
  (r) => rows(40, (k) => `[${1900000000123456789n + BigInt(k)}, ${watts(r)}]`),
  (r) => rows(40, (k) => `${k / 10}\t${watts(r)}`),
  (r) => `time,current_A,voltage_V\n${rows(40, (k) => `2030-03-17T10:00:${10 + k}Z,${watts(r) / 50},50`)}`,
  (r) => `"time, s","power, W"\r\n${rows(40, (k) => `"${k}","${watts(r)}"\r`)}`,
];

/** What stands where a number was. */
const intruders = (
  '1e999 -1e999 1e308 -1e308 1.7e18 1e-320 -1 -0 NaN inf Infinity null N/A 0x10 1,5 1.000,5 9'.split(
    ' ',
  ) as string[]
).concat([
  '',
  '"',
  '""',
  "'",
  '\u0000',
  '\uFEFF',
  '#',
  '//',
  '{',
  ']',
  '99999999999999999999999999',
  '٣',
  '−5',
  '1e',
  '--',
  '::',
  '\r',
  '\t',
]);

type Mutation = (text: string, random: Random) => string;

const mutations: readonly Mutation[] = [
  (text, r) => replacedNumber(text, r, intruders[below(r, intruders.length)]!),
  (text, r) =>
    replacedNumber(
      text,
      r,
      `${below(r, 2) === 0 ? '-' : ''}${(r.uniform() * 10).toFixed(3)}e${below(r, 640) - 320}`,
    ),
  (text, r) => text.slice(0, below(r, text.length)),
  (text, r) => inserted(text, below(r, text.length), String.fromCharCode(below(r, 256))),
  (text, r) => {
    const lines = text.split('\n');
    const at = below(r, lines.length);
    lines.splice(at, below(r, 3), lines[below(r, lines.length)]!);
    return lines.join('\n');
  },
  (text, r) => {
    const lines = text.split('\n');
    const [a, b] = [below(r, lines.length), below(r, lines.length)];
    [lines[a], lines[b]] = [lines[b]!, lines[a]!];
    return lines.join('\n');
  },
  (text, r) => inserted(text, below(r, text.length), ',;\t|\n"'[below(r, 6)]!.repeat(1 + below(r, 40))),
  (text, r) => text.replaceAll(',', [';', '|', ' ', ',,'][below(r, 4)]!),
];

/** The text number `number` of a series, mutated one to six times. */
export function mutatedRecording(seed: number, number: number): string {
  const random = new Random((seed * 1_000_003 + number) >>> 0);
  let text = forms[number % forms.length]!(random);
  const times = 1 + below(random, 6);
  for (let k = 0; k < times; k++) text = mutations[below(random, mutations.length)]!(text, random);
  return text;
}

function below(random: Random, count: number): number {
  return Math.min(count - 1, Math.floor(random.uniform() * count));
}

function inserted(text: string, at: number, what: string): string {
  return text.slice(0, at) + what + text.slice(at);
}

function replacedNumber(text: string, random: Random, by: string): string {
  const found = [...text.matchAll(/\d+(?:\.\d+)?/g)];
  const one = found[below(random, Math.max(1, found.length))];
  return one === undefined ? text : text.slice(0, one.index) + by + text.slice(one.index + one[0].length);
}
