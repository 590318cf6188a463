/** What all commands do alike: help, options of one name, typos, documents with the keys of their page. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Command } from 'commander';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { jsonKeys } from '../../scripts/json-page.ts';
import { commandNames, commands } from '../../src/cli/commands.ts';
import { type Done, standingCommand } from './standing/standing.ts';

const buswake = (...words: readonly string[]): Done => standingCommand(words);

describe.each(commandNames)('%s', (name) => {
  let command: Command;
  const option = (flag: string) => command.options.find(({ long }) => long === flag);

  beforeAll(async () => {
    command = (await commands[name]!.load())();
  });

  it('prints a document with --json, described as everywhere', () => {
    expect(option('--json')?.description).toBe('print one JSON document');
  });

  it('says of --force what it overwrites, and has it only beside an option that names that', () => {
    const force = option('--force');
    if (force === undefined) return;
    expect(force.description).toMatch(/^overwrite what lies there: an? |^overwrite what lies there: tables /);
    expect(option('--out')).toBeDefined();
  });

  it('has --out as -o with one value, and --set as a change of the scenario', () => {
    const out = option('--out');
    if (out !== undefined) expect([out.short, out.required, out.variadic]).toEqual(['-o', true, false]);
    const set = option('--set');
    if (set !== undefined)
      expect(set.description).toBe('change one value, for example trays.capacitance="130 F"; repeatable');
  });

  it('has -q where it runs something, reads long or says what comes next, and takes it beside --json', () => {
    if (name === 'explain') return;
    expect(option('--quiet')?.short).toBe('-q');
  });

  it('says what each option is for, in words that begin small and end without a stop', () => {
    for (const { flags, description } of command.options)
      expect([flags, description]).toEqual([flags, expect.stringMatching(/^[^A-Z].*[^.]$/)]);
  });

  it('reads standard input where it names a scenario or a recording', () => {
    const [first] = command.registeredArguments;
    if (!['scenario', 'study', 'file'].includes(first!.name())) return;
    expect(first!.description).toMatch(/; - reads (a scenario from )?stdin$/);
  });
});

describe('a typo', () => {
  it.each([
    ['rnu', 'pulse-train', /unknown command 'rnu'\n\(Did you mean run\?\)/],
    ['run', 'pulse-train --josn', /unknown option '--josn'\n\(Did you mean --json\?\)/],
    ['size', 'trays --wokers 2', /unknown option '--wokers'\n\(Did you mean --workers\?\)/],
    ['run', 'pulse-trane', /did you mean pulse-train, pulse-train-400v or pulse-train-800v\?/],
    ['size', 'tray', /did you mean trays/],
    ['check', 'pulse-train --set trays.capacitanse=1', /capacitance/],
    ['explain', 'latencyy', /did you mean latency\?/],
  ])('%s %s names the nearest and runs nothing', (command, words, said) => {
    const { status, stdout, stderr } = buswake(command, ...words.split(' '));
    expect([2, 3]).toContain(status);
    expect(stdout).toBe('');
    expect(stderr).toMatch(said);
  });
});

describe('a document', () => {
  let folder: string;
  const kept = (): string => join(folder, 'run');

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'buswake-alike-'));
    const quick = ['run', 'single-step', '--set', 'duration=0.2 s', '--quiet', '--out', kept()];
    expect(buswake(...quick).stderr).toBe('');
  });

  afterAll(() => rmSync(folder, { recursive: true }));

  it.each([
    ['run', () => ['single-step', '--set', 'duration=0.2 s']],
    ['check', () => ['pulse-train', '--paths']],
    ['explain', () => ['ac-sag']],
    ['trace', () => ['scenarios/measured/bench-step.csv']],
    ['view', () => [kept()]],
    ['verify', () => [kept()]],
    ['export', () => [kept(), '--out', join(folder, 'tables')]],
    ['compare', () => [kept(), kept()]],
    ['response', () => ['bench-step', '--workers', '1']],
    [
      'spread',
      () => [
        'single-step',
        '--set',
        'duration=0.2 s',
        '--samples',
        '2',
        '--tolerance',
        'shelves.droop=uniform by 5 %',
      ],
    ],
  ] as const)('of %s has the keys that its page says, and no others', (name, words) => {
    const { stdout } = buswake(name, ...words(), '--json');
    const keys = Object.keys(JSON.parse(stdout) as object).sort();
    const said = jsonKeys(name);
    const must = said.filter(({ text }) => !/^\w+\?/.test(text)).map((member) => member.name);
    expect(must.filter((key) => !keys.includes(key))).toEqual([]);
    expect(keys.filter((key) => !said.some((member) => member.name === key))).toEqual([]);
  });

  it('is printed with -q as well', () => {
    expect(JSON.parse(buswake('check', 'pulse-train', '-q', '--json').stdout)).toHaveProperty('scenario');
  });

  it('of what is refused holds the problems, and nothing else is printed there', () => {
    for (const words of [
      ['run', 'pulse-trane'],
      ['view', join(folder, 'none')],
      ['trace', join(folder, 'none.csv')],
    ]) {
      const { stdout, status } = buswake(...words, '--json');
      expect([words[0], status, Object.keys(JSON.parse(stdout) as object)]).toEqual([
        words[0],
        3,
        ['schema_version', 'problems'],
      ]);
    }
  });
});

describe('the next step', () => {
  it.each([
    [
      'check',
      ['pulse-train', '--set', 'trays.capacitance=130 F'],
      "run pulse-train --set 'trays.capacitance=130 F'",
    ],
    [
      'run',
      [
        'single-step',
        '--set',
        'duration=0.2 s',
        '--waive',
        'trim=being retuned',
        '--on',
        '2030-06-30',
        '--energy',
        '--steps',
      ],
      "run single-step --set 'duration=0.2 s' --waive 'trim=being retuned' --on 2030-06-30 --out out/run, then",
    ],
    [
      'trace',
      ['scenarios/loads/training-two-accelerators-50hz.csv', '--at', 'device', '--samples', 'means'],
      'run pulse-train --load scenarios/loads/training-two-accelerators-50hz.csv --samples means --at device --copies 1',
    ],
  ])('after %s repeats the options that were given', (name, words, next) => {
    const said = buswake(name, ...words).stdout.replaceAll(/\s+/g, ' ');
    expect(said).toContain(`node scripts/buswake.mjs ${next}`);
  });

  it.each([
    ['trace', ['scenarios/measured/bench-step.csv']],
    ['run', ['single-step', '--set', 'duration=0.2 s']],
  ])('after %s is left out with -q', (name, words) => {
    const { stdout } = buswake(name, ...words, '-q');
    expect(stdout).not.toBe('');
    expect(stdout).not.toContain('next  ');
  });
});
