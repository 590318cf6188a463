/** What is acceptable, stable, damped or recommended is decided in studies and shown by terminal and page alike. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const root = new URL('../../', import.meta.url).pathname;

/** Quantities that a study is judged by, beside a number that they are compared with. */
const judging =
  /\b(damping_ratio|damping_fast_ratio|real_per_s|growth_per_s|clearance_ratio|overshoot_ratio|steady_error_ratio)\b[^\n;]{0,12}[<>]=?|\bletter\b\)? *[!=]== *'/;

function sources(folder: string): readonly string[] {
  return readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `${folder}/${name}`);
}

describe('terminal and page', () => {
  it('compare no quantity that a study is judged by', () => {
    const lines = [...sources('src/cli'), ...sources('web')].flatMap((file) =>
      readFileSync(`${root}${file}`, 'utf8')
        .split('\n')
        .flatMap((line, k) => (judging.test(line) ? [`${file}:${k + 1} ${line.trim()}`] : [])),
    );
    expect(lines).toEqual([]);
  });

  it('would be found out: studies compare them', () => {
    expect(judging.test(readFileSync(`${root}src/studies/damping.ts`, 'utf8'))).toBe(true);
    expect(judging.test("report.table.every(({ letter }) => letter === 'P')")).toBe(true);
  });
});
