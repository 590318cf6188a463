/** JSON, one object a line. */
import { describe } from 'vitest';
import { byNumber, file, lines, readToTruth, refused, rows } from './known-load.ts';

describe('read to their known truth:', () => {
  readToTruth([
    ['JSON lines', lines((t, p) => JSON.stringify({ t_s: t, power_W: p }))],
    ['JSON lines, nested', lines((t, p) => JSON.stringify({ t_s: t, board: { power_W: p, rail: 'x' } }))],
    [
      'JSON lines, nested, words beside the power',
      lines((t, p) => JSON.stringify({ t_s: t, power: { draw_W: p, unit: 'W', state: 'P0' } })),
    ],
    [
      'JSON lines, keys that change their order, and one that comes later',
      lines((t, p, k) =>
        JSON.stringify(
          k % 2 ? { power_W: p, t_s: t } : { t_s: t, power_W: p, ...(k > 9 ? { note: 1 } : {}) },
        ),
      ),
    ],
    [
      'JSON lines, an epoch in nanoseconds beyond what a number keeps',
      lines((t, p) => `{"ts_ns": ${1_900_000_000_000_000_001n + BigInt(1e9 * t)}, "power_W": ${p}}`),
    ],
    [
      'JSON lines, one key in two objects and within a text',
      lines(
        (t, p) => `{"t_s": ${t}, "a": {"power_W": ${p}, "note": "\\"a\\": \\"b\\":"}, "b": {"note": ":"}}`,
      ),
    ],
    ['JSON lines of arrays', lines((t, p) => JSON.stringify([t, p])), byNumber],
    [
      'JSON lines, some broken',
      lines((t, p, k) => `${JSON.stringify({ t_s: t, power_W: p })}${k === 3 ? '\n{"t_s": 1.6, "po' : ''}`),
    ],
  ]);
});

describe('refused with the way out:', () => {
  refused([
    [
      'a key twice in one object',
      lines((t, p, k) => `{"t_s": ${t}, "power_W": ${p}${k === 3 ? ', "power_W": 1' : ''}}`),
      /ugly:4\s.*a key that stands twice in one object: power_W.*names of their own/s,
    ],
    [
      'a key twice in an object within, once in another',
      lines((t, p) => `{"t_s": ${t}, "a": {"W": ${p}}, "b": {"W": 1, "note": "\\"W\\":", "W": 2}}`),
      /ugly:1\s.*a key that stands twice in one object: W/s,
    ],
    [
      'a power under another key, behind the lines that the columns are taken from',
      Array.from({ length: 400 }, (_, k) =>
        JSON.stringify(k < 250 ? { t_s: k, power_W: 1000 } : { t_s: k, power_kW: 1 }),
      ).join('\n'),
      /ugly:251\s.*a key power_kW that none of the first lines has.*split the file there/s,
    ],
    [
      'JSON without one sample per line',
      file('[', rows((t, p) => [`{"t_s": ${t}`, ` "power_W": ${p}}`]).join(',\n'), ']'),
      /write one object a line/,
    ],
    [
      'an array of objects',
      `[${lines((t, p) => `{"t_s": ${t}, "power_W": ${p}},`)}]`,
      /write one object a line/,
    ],
    ['an object over several lines', '{\n"t_s": 0,\n"power_W": 5\n}', /write one object a line/],
  ]);
});
