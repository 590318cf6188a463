/** The page on reports names every key of the document and every exit code that there is. */
import { describe, expect, it } from 'vitest';
import { exit } from '../../src/cli/exit.ts';
import { readTextFile } from '../../src/disk/read-file.ts';
import { run } from '../../src/run.ts';
import { readScenario } from '../../src/scenario/read.ts';
import { textOf } from './read-pages.ts';

const page = textOf('src/analysis/judge/report.md');
const named = new Set([...page.matchAll(/`([a-z_]+)`/g)].map(([, key]) => key!));

describe('src/analysis/judge/report.md', () => {
  const { scenario } = readScenario('scenarios/idle.yaml', {
    files: readTextFile,
    changes: [{ path: 'duration', value: '50 ms' }],
  });
  const { report } = run(scenario, null);

  it('names every key of a report', () => {
    expect(Object.keys(report).filter((key) => !named.has(key))).toEqual([]);
  });

  it('names every key of a finding and of an entry of the basis', () => {
    const keys = [...Object.keys(report.findings[0]!), ...Object.keys(report.basis[0]!)];
    expect(keys.filter((key) => !named.has(key))).toEqual([]);
  });

  it('names every exit code, and no other', () => {
    const rows = [...page.matchAll(/^\| (\d+) \| /gm)].map(([, code]) => Number(code));
    expect(rows).toEqual(Object.values(exit).sort((a, b) => a - b));
  });
});
