import { describe, expect, it } from 'vitest';
import { readStudyReport } from '../../src/studies/kept-report.ts';

const whole = { schema_version: 3, kind: 'size', study: 'trays', title: '', about: '', rows: [1] };
const read = (text: string): unknown => readStudyReport(new TextEncoder().encode(text), 'study.json');

describe('readStudyReport', () => {
  it('gives a report that can be drawn, whole', () => {
    expect(read(JSON.stringify(whole))).toEqual(whole);
  });

  it('refuses regions of what fails that an older build kept without their middle, with the way out', () => {
    const spread = (region: object): string =>
      JSON.stringify({ ...whole, kind: 'spread', rare: { regions: [region] } });
    expect(() => read(spread({ share_ratio: 1 }))).toThrow(
      /found {5}a report without the middle of each region of what fails: an older build kept it\n[\s\S]*--resume/,
    );
    expect(read(spread({ share_ratio: 1, middle: [] }))).toMatchObject({ kind: 'spread' });
    expect(read(JSON.stringify({ ...whole, kind: 'spread' }))).toMatchObject({ kind: 'spread' });
  });

  it.each([
    ['cut short', JSON.stringify(whole).slice(0, -3), 'text that is not JSON'],
    ['something else', '[1, 2]', 'JSON that is no report'],
    ['nothing', 'null', 'JSON that is no report'],
    ['later', JSON.stringify({ ...whole, schema_version: 4 }), 'a report of version 4'],
    ['earlier', JSON.stringify({ ...whole, schema_version: 2 }), 'a report of version 2'],
    ['of another kind', JSON.stringify({ ...whole, kind: 'share' }), 'a study without a page'],
    [
      'tests of the share loop',
      JSON.stringify({ schema_version: 1, scenario: 'a' }),
      'a study without a page',
    ],
    ['without kind and study', JSON.stringify({ schema_version: 1 }), 'JSON that is no report'],
    ['without its head', JSON.stringify({ ...whole, title: 7 }), 'a report without its head'],
  ])('refuses what is %s', (_, text, found) => {
    expect(() => read(text)).toThrow(`study.json\n  found     ${found}`);
  });
});
