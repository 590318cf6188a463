/** A specification on the command line: judged by it, answered, sent back; and what makes no statement. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { folderOfEachTest } from '../../fixtures/own-folder.ts';
import { standingCommand } from '../standing/standing.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const folder = folderOfEachTest();

function buswake(...words: readonly string[]) {
  return buswakeIn(root, ...words);
}

function buswakeIn(cwd: string, ...words: readonly string[]) {
  return standingCommand(words, cwd);
}

const table = `clause,requirement,metric,bound,unit,stay,applies,source
1,"Lowest level, at any moment",bus-stay,>= 47,V,0 s,normal,DC-1
2,Level for 2 ms,bus-stay,>= 50200 mV,,2 ms,normal,DC-1
3,Noise,,<= 70 dB,,,normal,B-2
`;

it('answers a specification line by line and writes the table that goes back', () => {
  const [spec, kept, back] = ['spec.csv', 'kept', 'statement.csv'].map((name) => folder(name)) as [
    string,
    string,
    string,
  ];
  writeFileSync(spec, table);
  const run = buswake('run', 'bench-step', '--set', 'duration=1.2 s', '--limits', spec, '--out', kept);
  expect([run.status, run.stderr]).toEqual([4, '']);
  expect(run.stdout).toContain('of 3 requirements 1 met, 1 not met, 1 open');

  const text = buswake('review', kept, '--out', back);
  expect([text.status, text.stderr]).toEqual([4, `Written: ${back}\n`]);
  expect(text.stdout).toMatch(
    /^ {2}2 {7}not met {2}>= 50200 mV, for more than 2 ms .* mV {2}-\d.* bench-step, /m,
  );
  const [, first, second, third] = readFileSync(back, 'utf8').split('\n');
  expect(first).toMatch(
    /^1,"Lowest level, at any moment",">= 47 V, .*",normal,met,49\.\d+,2\.\d+,V,bench-step,/,
  );
  expect(second).toMatch(/,not met,49\d+\.\d+,-6\d+\.\d+,mV,bench-step,/);
  expect(third).toMatch(/^3,Noise,<= 70 dB,normal,open,,,,,,,"no metric is named: /);

  const { statement } = JSON.parse(buswake('review', kept, '--json').stdout);
  expect(statement.lines.map(({ state }: { state: string }) => state)).toEqual(['met', 'not_met', 'open']);
  // The same files by other paths are the same cabinet; another tray is not.
  const same = ['run', join(root, 'scenarios/bench-step.yaml'), '--limits', spec, '-q'];
  for (const [name, esr] of [
    ['again', '2.4 mΩ'],
    ['other', '4 mΩ'],
  ] as const)
    buswakeIn(folder('.'), ...same, '--set', `trays.esr=${esr}`, '--out', folder(name));
  const apart = (...dirs: readonly string[]): string[] =>
    JSON.parse(buswake('review', ...dirs, '--json').stdout).statement.conditions.filter((one: string) =>
      one.startsWith('the runs are not of one cabinet'),
    );
  expect(apart(kept, folder('again'))).toEqual(['the runs are not of one cabinet: trays.esr = 2.4 mΩ']);
  expect(apart(folder('again'), folder('other'))).toEqual([
    'the runs are not of one cabinet: trays.esr = 2.4 mΩ',
    'the runs are not of one cabinet: trays.esr = 4 mΩ',
  ]);
  // What made it is kept with it.
  expect(buswake('verify', kept).status).toBe(0);
}, 60_000);

it('says of a run by limits of its own that there is nothing to answer, and of a bad table every cell at once', () => {
  const [spec, kept] = [folder('bad.csv'), folder('own')];
  writeFileSync(spec, `${table.replace('>= 47', '> 47').replace('2 ms,n', 'soon,n')}2,Again,,,,,normal,B\n`);
  const bad = buswake('run', 'bench-step', '--limits', spec);
  expect(bad.status).toBe(3);
  expect(bad.stderr).toContain(`bad.csv:2:42  clause 1, bound\n  found     > 47\n`);
  expect(bad.stderr).toContain(`bad.csv:3:40  clause 2, stay\n  found     soon`);
  expect(bad.stderr).toContain(`bad.csv:5:1  clause 2\n  found     2 a second time; the first is in line 3`);
  expect(buswake('run', 'bench-step', '--out', kept, '-q').status).toBe(6);
  const none = buswake('review', kept);
  expect([none.status, none.stdout]).toEqual([3, '']);
  expect(none.stderr).toContain('run it with --limits SPECIFICATION.csv --out DIR');
}, 60_000);
