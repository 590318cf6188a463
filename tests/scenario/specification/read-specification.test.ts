/** Specifications as others write them: what is read, and what is refused at its cell. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { formatProblem, type Problem } from '../../../src/base/problem.ts';
import { flatTo_Hz } from '../../../src/engine/meters/streams.ts';
import { type LimitQuantity, quantities } from '../../../src/scenario/limit-quantities.ts';
import { readLimitRows } from '../../../src/scenario/sections/limit-rows.ts';
import { Sheet } from '../../../src/scenario/sheet.ts';
import { readSpecification } from '../../../src/scenario/specification/read-specification.ts';
import { shippedLimits } from '../../../src/shipped/shipped-limits.ts';

const head = 'clause,requirement,metric,bound,unit,stay,band,applies,source';

function read(...lines: readonly string[]) {
  const problems: Problem[] = [];
  const text = lines[0]!.startsWith('clause') ? lines.join('\n') : [head, ...lines].join('\n');
  const result = readSpecification('spec.csv', text, problems);
  return { result, problems };
}

/** The first thing wrong: its place, and what was found. */
function wrong(...lines: readonly string[]): string {
  const { problems } = read(...lines);
  const [first] = problems.filter(({ severity }) => severity === 'error');
  return first === undefined ? 'nothing' : `${first.line}:${first.column} ${first.found}`;
}

function judged(...lines: readonly string[]) {
  const { result, problems } = read(...lines);
  expect(problems.map(formatProblem)).toEqual([]);
  return result!.specification.requirements.map((requirement) => requirement.judged!);
}

/** A row on the highest bus voltage with this bound and unit. */
const bus = (bound: string, unit = ''): string => `3.1,words,bus-stay,"${bound}",${unit},1 s,,normal,DC-1`;

describe('where a line applies', () => {
  it.each(['normal; carry', 'carry', 'all'])(
    '%s is no column of what is judged over a whole run',
    (applies) => {
      expect(wrong(`1,words,shelf-peak,<= 94 %,,,,${applies},D`)).toBe(`2:31 ${applies}`);
    },
  );

  it('a row that begins with # is not passed over', () => {
    expect(wrong(bus('<= 53 V'), '#6,words,bus-stay,>= 49.9 V,,0 s,,normal,D')).toMatch(
      /^3:1 a line that begins with #/,
    );
  });
});

describe('a bound', () => {
  it.each([
    ['<= 53 V', '', 'upper', 53],
    ['≤53V', '', 'upper', 53],
    ['max 53 V', '', 'upper', 53],
    ['max. 53000 mV', '', 'upper', 53],
    ['53 V max', '', 'upper', 53],
    ['not more than 53', 'V', 'upper', 53],
    ['>= 48 V', '', 'lower', 48],
    ['Min. 48 V', '', 'lower', 48],
    ['48 V minimum', '', 'lower', 48],
    ['at least 96', '%', 'lower', 0.96],
    ['>= 0.96', '1', 'lower', 0.96],
  ])('reads %s %s', (bound, unit, side, value) => {
    expect(judged(bus(bound, unit))[0]).toMatchObject({ side, value });
  });

  it.each([
    ['53 V', '53 V'],
    ['< 53 V', '< 53 V'],
    ['less than 53 V', 'less than 53 V'],
    ['= 53 V', '= 53 V'],
    ['50 ± 3 V', '50 ± 3 V'],
    ['48 to 53 V', '48 to 53 V'],
    ['<= 53,0 V', '53,0'],
    ['<= 1,000 V', '1,000'],
    ['<= 1 000 V', '1 000'],
    ['<= 1’000 V', '1’000'],
    ['<= 53', '53 without a unit'],
    ['<= 53 bar', '53 bar, with a unit that is not known (bar)'],
    ['<= 53 A', '53 A, which is a current'],
    ['<= high V', '<= high V'],
    ['', 'nothing'],
  ])('refuses %s at its cell', (bound, found) => {
    expect(wrong(bus(bound))).toBe(`2:20 ${found}`);
  });

  it('refuses a unit that is stated twice, otherwise; a share without %, which may be five or five hundred per cent', () => {
    expect(wrong(bus('<= 53 V', 'mV'))).toBe('2:20 V beside the unit mV');
    expect(wrong('5.1,w,line-current,<= 80,,,,normal,AC')).toBe('2:20 80 without a unit');
    expect(wrong('5.1,w,line-current,<= 200 A,,,,normal,AC')).toBe('2:20 200 A');
    expect(judged('5.1,w,line-current,<= 80 %,,,,normal,AC')[0]).toMatchObject({
      value: 0.8,
      per_unit: 0.01,
    });
  });

  it('names signs and digits of double width, which look like others', () => {
    expect(wrong(bus('<＝ 53 V'))).toBe('2:20 <＝ 53 V, with ＝ (U+FF1D) of double width');
    expect(wrong(bus('max －5 V'))).toBe('2:20 max －5 V, with － (U+FF0D) of double width');
    expect(wrong(bus('<= 53', 'Ｖ'))).toMatch(/ Ｖ, with Ｖ \(U\+FF36\) of double width$/);
    const { problems } = read(bus('＞＝ ４８ V'));
    expect(problems.map(({ mend }) => mend)).toEqual(['write >= 48 V']);
  });

  it('does not take a time in minutes for a lowest value', () => {
    expect(wrong('6,w,battery-recharge,5 min,,,,normal,B')).toBe('2:22 5 min');
    expect(judged('6,w,battery-recharge,<= 5 min,,,,normal,B')[0]).toMatchObject({ value: 300 });
  });

  it('asks whether 80.000 is eighty where a table writes numbers with a comma', () => {
    const semicolons = (bound: string) => [head.replaceAll(',', ';'), `4;w;ac-ramp-1s;${bound};;;;normal;AC`];
    expect(wrong(...semicolons('<= 80.000 kW/s'))).toContain('80.000 in a table parted by semicolons');
    expect(judged(...semicolons('<= 80.5 kW/s'))[0]).toMatchObject({ value: 80_500 });
    expect(judged('4,w,ac-ramp-1s,<= 33 %/s,,,,normal,AC')[0]).toMatchObject({ value: 0.33 });
  });

  it('stands on the side on which the quantity is judged', () => {
    expect(wrong('7,w,bank-life,<= 7 h,,,,normal,B')).toBe('2:15 <= 7 h, an upper bound');
    expect(wrong('7,w,line-current,min 80 %,,,,normal,B')).toBe('2:18 min 80 %, a lower bound');
  });
});

describe('a row', () => {
  // Cells are counted from 0, by the commas before them.
  it.each([
    [',w,bus-stay,<= 53 V,,1 s,,normal,DC', 0, 'nothing'],
    ['3,,bus-stay,<= 53 V,,1 s,,normal,DC', 1, 'nothing'],
    ['3,w,bus-stay,<= 53 V,,1 s,,normal,', 8, 'nothing'],
    ['3,w,bus-stay,<= 53 V,,1 s,,,DC', 7, 'nothing'],
    ['3,w,bus-stay,<= 53 V,,1 s,,sometimes,DC', 7, 'sometimes'],
    ['3,w,bus-stay,<= 53 V,,,,normal,DC', 5, 'nothing'],
    ['3,w,trim,<= 80 %,,1 s,,normal,DC', 5, '1 s'],
    ['3,w,voltage-change-kept,<= 3 %,,2 s,,normal,DC', 5, '2 s'],
    ['3,w,ac-tone,<= 2 %,,,,normal,DC', 6, 'nothing'],
    ['3,w,ac-tone,<= 2 %,,,7 Hz to 2 kHz,normal,DC', 6, '7 Hz to 2 kHz'],
    ['3,w,ac-tone,<= 2 %,,,9 Hz to 2 Hz,normal,DC', 6, '9 Hz to 2 Hz'],
    ['3,w,trim,<= 80 %,,,,carry,DC', 7, 'carry'],
    ['3,w,trim,<= 80 %', 0, '4 cells'],
    ['3,"w,trim,<= 80 %,,,,normal,DC', 1, 'a quote that does not close'],
  ])('refuses %s', (line, cell, found) => {
    const before = line.split(',').slice(0, cell);
    const column = before.reduce((sum, words) => sum + words.length + 1, 1);
    expect(wrong(line)).toBe(`2:${column} ${found}`);
  });

  it('refuses clauses of one number, and those that become one name', () => {
    const other = bus('<= 54 V').replace('3.1', '3-1').replace('1 s', '2 s');
    expect(wrong(bus('<= 53 V'), bus('<= 53 V'))).toBe('3:1 3.1 a second time; the first is in line 2');
    expect(wrong(bus('<= 53 V'), other)).toBe('3:1 3-1, which reads like 3.1; the first is in line 2');
  });

  it('refuses clauses that contradict each other, names both', () => {
    const other = (bound: string) => bus(bound).replace('3.1', '3.2');
    expect(wrong(bus('<= 53 V'), other('<= 54 V'))).toMatch(
      /^3:20 <= 54 V, for more than 1 s, where clause 3\.1 in line 2 asks for <= 53 V/,
    );
    expect(wrong(bus('<= 53 V'), other('>= 54 V'))).toMatch(/^3:20 >= 54 V.*asks for <= 53 V/);
    expect(wrong(bus('<= 53 V'), other('<= 53000 mV'))).toBe('nothing');
  });

  it('gives clauses on one thing one limit, whose columns they are', () => {
    const carry = bus('>= 47 V').replace('3.1', '3.2').replace('normal', 'carry; degraded');
    const { result, problems } = read(bus('>= 48 V'), carry);
    const sheet = new Sheet(problems);
    const [row, ...others] = readLimitRows(result!.limits, sheet);
    expect(others).toEqual([]);
    expect(row).toMatchObject({ id: 'clause-3-1', needs_Hz: 0.44 });
    expect(row?.source).toBe('published: DC-1, clause 3.1; DC-1, clause 3.2');
    const number = (column: string) => sheet.numberOrNull(`limits.clause-3-1.${column}`);
    expect(['normal', 'carry', 'degraded'].map(number)).toEqual([48, 47, 47]);
    expect(sheet.cells.get('limits.clause-3-1.carry')?.origin).toEqual({
      file: 'spec.csv',
      line: 3,
      column: 20,
    });
  });

  it('keeps what names no quantity as open, with what would show it; a misspelt one is told', () => {
    const { result, problems } = read(
      `${head},shown_by`,
      '9.1,Noise,,<= 70 dB,,,,normal,B,a hall',
      '9.2,Volts,bus-stya,<= 53 V,,1 s,,normal,B,',
    );
    expect(result?.specification.requirements.map(({ judged: one, shown_by }) => [one, shown_by])).toEqual([
      [null, 'a hall'],
      [null, 'bus-stya is no quantity that Buswake judges; perhaps bus-stay was meant'],
    ]);
    expect(problems.map(({ severity, found, mend }) => [severity, found, mend])).toEqual([
      [
        'warning',
        'bus-stya, which Buswake does not judge: this requirement is open',
        'did you mean bus-stay?',
      ],
    ]);
  });
});

describe('a table', () => {
  it('has every column that is needed, none unknown, none twice', () => {
    expect(wrong('clause,requirement,metric,bound,applies')).toBe('1:1 no column source');
    expect(wrong(`${head},Bound`)).toMatch(/key Bound$/);
    expect(wrong(`${head},stay`)).toMatch(/column stay a second time$/);
    expect(wrong(head)).toBe('1:1 no requirement');
  });

  it('is read with a byte order mark, with either line end, with breaks inside quotes and in any order of columns', () => {
    const lines = [
      '\ufeffsource,applies,bound,metric,stay,requirement,clause',
      'DC,all,<= 53 V,bus-stay,1 s,"a',
      'b",1',
      'DC,all,<= 5,,,w,2',
    ];
    const problems: Problem[] = [];
    const result = readSpecification('spec.csv', lines.join('\r\n'), problems);
    expect(problems).toEqual([]);
    expect(result?.specification.requirements.map(({ words, line }) => [words, line])).toEqual([
      ['a\r\nb', 3],
      ['w', 4],
    ]);
  });

  it('comes with an example that says whose it is', () => {
    const text = readFileSync('models/specification-example.csv', 'utf8');
    const problems: Problem[] = [];
    const result = readSpecification('example', text, problems);
    expect(problems).toEqual([]);
    expect(result?.specification.title).toMatch(/of our own invention/);
    expect(result?.specification.requirements.length).toBeGreaterThan(10);
  });
});

describe('what quantities are', () => {
  // The shipped limits are the outside of this table: they say of each row what a recorded load must show.
  it('agrees with the shipped limits: side, band, stay and what a recording must show', () => {
    for (const row of shippedLimits()) {
      const quantity: LimitQuantity = quantities[row.quantity as keyof typeof quantities];
      if (quantity.side !== 'either') expect([row.id, row.side]).toEqual([row.id, quantity.side]);
      expect([row.id, row.band_Hz !== null]).toEqual([row.id, quantity.band_to_Hz !== null]);
      if (quantity.stay === null) expect([row.id, row.stay_s]).toEqual([row.id, null]);
      if (typeof quantity.stay === 'number') expect(row.stay_s).toBe(quantity.stay);
      const plain = (row.stay_s === null || row.stay_s === 0) && row.band_Hz === null;
      if (plain) expect([row.id, row.needs_Hz]).toEqual([row.id, quantity.needs_Hz]);
    }
  });

  it('takes bands of the AC side as far as its power is kept flat', () => {
    expect(quantities['ac-band-ripple'].band_to_Hz).toBe(flatTo_Hz);
  });
});
