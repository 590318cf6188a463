/** Studies as real processes: killed, resumed, split, joined, changed underneath. */
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { cautionLines, cautionsAt, cautionsMarkdown } from '../../src/analysis/words/cautions.ts';
import { onOneThread } from './one-thread.ts';
import { standingCommand } from './standing/standing.ts';

const root = new URL('../../', import.meta.url).pathname;
const script = `${root}scripts/buswake.mjs`;

/** A folder with scenarios and models of its own, so that a test may change them. */
function ownFolder(): string {
  const dir = mkdtempSync(join(tmpdir(), 'buswake-'));
  for (const part of ['models', 'scenarios']) cpSync(`${root}${part}`, join(dir, part), { recursive: true });
  return dir;
}

function buswake(cwd: string, ...words: readonly string[]) {
  const run = standingCommand(onOneThread(words), cwd);
  return { code: run.status, out: run.stdout, err: run.stderr };
}

/** What a printed command prints when it is typed: it begins as this process called the tool. */
function asPrinted(cwd: string, command: string): string {
  return spawnSync('sh', ['-c', command], { cwd, encoding: 'utf8' }).stdout;
}

/** A printed command from the name of its command on. */
function withoutCall(command: string): string {
  return command.replace(/^.*?(?=\b(?:run|spread) )/, '');
}

/** Of the smallest cabinet that is shipped: what is asked here is how studies are kept, not what they find. */
const spread = [
  'spread',
  'scenarios/bench-step.yaml',
  '--set',
  'duration=0.1 s',
  '--samples',
  '24',
  '--tolerance',
  'shelves.set_point_offset=uniform from -0.25 % to 0.25 %',
  '--tolerance',
  'trays.esr=normal by 10 %',
];

/** How it ends: 0.3 s are too short for any limit to be judged. */
const unjudged = 6;

/** Every file of a kept study, by its path in there. */
function filesIn(dir: string): Readonly<Record<string, string>> {
  return Object.fromEntries(
    readdirSync(dir, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((path) => [relative(dir, path), readFileSync(path, 'utf8')]),
  );
}

/** Starts a study and sends it a signal once it has kept so many trials. */
async function interrupted(
  cwd: string,
  out: string,
  signal: NodeJS.Signals,
  kept: number,
): Promise<{ readonly code: number | null; readonly err: string }> {
  const child = spawn(process.execPath, [script, ...spread, '--workers', '2', '--out', out], {
    cwd,
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let err = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text;
  });
  const ended = new Promise<{ readonly code: number | null; readonly err: string }>((resolve) =>
    child.on('close', (code) => resolve({ code, err })),
  );
  const store = join(cwd, out, 'trials.jsonl');
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve, 20));
    let lines = 0;
    try {
      lines = readFileSync(store, 'utf8').split('\n').length - 2;
    } catch {
      // Not begun yet.
    }
    if (lines >= kept) break;
    if (child.exitCode !== null) throw new Error('the study ended before it could be interrupted');
  }
  child.kill(signal);
  return ended;
}

describe('a spread', () => {
  const cwd = ownFolder();
  let through: ReturnType<typeof filesIn>;
  let shown: string;

  beforeAll(() => {
    const run = buswake(cwd, ...spread, '--workers', '1', '--out', 'through');
    expect([run.code, run.err]).toEqual([unjudged, '']);
    through = filesIn(join(cwd, 'through'));
    shown = run.out;
  });

  it('keeps report, table, trials and inputs, the same bytes with two threads as with one', () => {
    const own = Object.keys(through).filter((name) => !name.startsWith('inputs/'));
    expect(own).toEqual([
      'SHA256SUMS',
      ...['inputs.json', 'samples.csv', 'study.json', 'study.md', 'trials.jsonl'],
    ]);
    const listed = JSON.parse(through['inputs.json']!).map(({ file }: { file: string }) => file);
    expect(listed.length).toBeGreaterThan(5);
    expect(Object.keys(through).filter((name) => name.startsWith('inputs/'))).toEqual(listed);
    expect(buswake(cwd, ...spread, '--workers', '2', '--out', 'two').code).toBe(unjudged);
    expect(filesIn(join(cwd, 'two'))).toEqual(through);
  });

  it('killed by SIGKILL half-way and resumed, ends with the same bytes', async () => {
    await interrupted(cwd, 'killed', 'SIGKILL', 8);
    // A line cut short, as a kill while writing leaves it.
    const store = join(cwd, 'killed', 'trials.jsonl');
    writeFileSync(store, `${readFileSync(store, 'utf8')}{"key":"half a li`);
    const before = readFileSync(store, 'utf8').split('\n').length;
    expect(before).toBeLessThan(24);
    expect(buswake(cwd, 'view', 'killed').err).toContain('stopped before its end: carry out the study again');
    expect(buswake(cwd, ...spread, '--out', 'killed', '--resume').code).toBe(unjudged);
    expect(filesIn(join(cwd, 'killed'))).toEqual(through);
  });

  it('stopped by Ctrl-C says what is kept, ends with 130, and goes on by the command that it prints', async () => {
    const { code, err } = await interrupted(cwd, 'stopped', 'SIGINT', 4);
    expect(code).toBe(130);
    const [, command = ''] = /finished trials are kept in stopped; go on: (.+)$/m.exec(err) ?? [];
    expect(command).toMatch(/ --workers 2 --out stopped --resume$/);
    expect(asPrinted(cwd, command)).not.toBe('');
    expect(filesIn(join(cwd, 'stopped'))).toEqual(through);
  });

  it('in parts that are merged equals the whole', () => {
    for (const k of [1, 2, 3]) {
      const part = buswake(cwd, ...spread, '--part', `${k}/3`, '--out', `part-${k}`);
      expect(part.out).toBe(`part ${k} of 3: 8 of 24 samples, in part-${k}\n`);
    }
    const merged = buswake(cwd, ...spread, '--merge', 'part-1', 'part-2', 'part-3', '--out', 'merged');
    expect([merged.code, merged.err]).toEqual([unjudged, '']);
    expect(filesIn(join(cwd, 'merged'))).toEqual(through);
  });

  it('refuses to join parts between which something is missing', () => {
    const { code, err } = buswake(cwd, ...spread, '--merge', 'part-1', 'part-3', '--out', 'holes');
    expect(code).toBe(3);
    expect(err).toMatchInlineSnapshot(`
      "--merge
        found     parts without 8 of 24 trials (2, 5, 8, 11, 14, …)
        expected  parts that hold every trial between them
        mend      run the missing part again with --resume, and name all parts
      1 problem. Nothing was run.
      "
    `);
  });

  it('says what nobody may take from it, where it is shown and where it is kept', () => {
    expect(shown.trimEnd().endsWith(cautionLines(cautionsAt(50)).join('\n'))).toBe(true);
    expect(through['study.md']!.endsWith(cautionsMarkdown(cautionsAt(50)))).toBe(true);
    expect((JSON.parse(through['study.json']!) as { cautions: unknown }).cautions).toEqual(cautionsAt(50));
  });

  it('is shown and exported as it was kept alone: not with a byte or a line changed, nor while it is written', () => {
    expect(
      spawnSync('sha256sum', ['-c', '--quiet', 'SHA256SUMS'], { cwd: join(cwd, 'through') }).status,
    ).toBe(0);
    const spoil: Readonly<Record<string, (text: string) => string>> = {
      'study.json': (text) => text.replace('"verdict": "', '"verdict": "not '),
      'trials.jsonl': (text) => text.split('\n').toSpliced(3, 1).join('\n'),
      'inputs.json': (text) => text.replace('inputs/01', 'inputs/02'),
      SHA256SUMS: (text) => text.replace(/^.*study\.json\n/m, ''),
    };
    for (const [name, change] of Object.entries(spoil)) {
      const dir = join(cwd, `spoilt-${name}`);
      cpSync(join(cwd, 'through'), dir, { recursive: true });
      const changed = change(through[name]!);
      expect(changed).not.toBe(through[name]);
      writeFileSync(join(dir, name), changed);
      const said = name === 'study.json' ? ['export', dir, '--out', join(cwd, 'tables')] : ['view', dir];
      const { code, err } = buswake(cwd, ...said);
      const told = [err.includes(`${name}\n`), err.includes('carry out the study again')];
      expect([code, ...told]).toEqual([3, true, true]);
    }
    const unended = join(cwd, 'unended');
    cpSync(join(cwd, 'through'), unended, { recursive: true });
    rmSync(join(unended, 'SHA256SUMS'));
    expect(buswake(cwd, 'view', unended).err).toContain('SHA256SUMS\n  found     no such file');
  });

  it('whose trials are lost is refused, and carried out again where that is asked for', () => {
    const lost = join(cwd, 'lost');
    cpSync(join(cwd, 'through'), lost, { recursive: true });
    rmSync(join(lost, 'trials.jsonl'));
    expect(buswake(cwd, ...spread, '--out', 'lost').err).toContain('give --resume or --force');
    expect(buswake(cwd, ...spread, '--out', 'lost', '--resume').code).toBe(unjudged);
    expect(filesIn(lost)).toEqual(through);
  });

  it('is written by one process at a time', () => {
    mkdirSync(join(cwd, 'taken'));
    writeFileSync(join(cwd, 'taken', '.in-use'), `${process.pid}\n`);
    const { code, err } = buswake(cwd, ...spread, '--out', 'taken');
    expect([code, err.includes(`a folder that process ${process.pid} is writing to`)]).toEqual([3, true]);
    expect(readdirSync(join(cwd, 'taken'))).toEqual(['.in-use']);
  });

  it('writes to no folder that holds other things, with --force neither', () => {
    mkdirSync(join(cwd, 'mine'));
    writeFileSync(join(cwd, 'mine', 'study.md'), 'my own');
    for (const more of [[], ['--force']]) {
      const { code, err } = buswake(cwd, ...spread, '--out', 'mine', ...more);
      expect([code, err.includes('a folder with other files in it: study.md')]).toEqual([3, true]);
    }
    expect(filesIn(join(cwd, 'mine'))).toEqual({ 'study.md': 'my own' });
  });

  it('ends in words, and can be gone on with, where the disk fills on the way', () => {
    const words = [process.execPath, script, ...spread, '--out', 'filled'].map((word) => `'${word}'`);
    const typed = `ulimit -f 40; exec ${words.join(' ')}`;
    const { status, stderr } = spawnSync('bash', ['-c', typed], { cwd, encoding: 'utf8' });
    expect([status, stderr.split('\n')[0]]).toEqual([3, 'filled/trials.jsonl']);
    expect(stderr).not.toMatch(/^ {4}at /m);
    expect(buswake(cwd, ...spread, '--out', 'filled', '--resume').code).toBe(unjudged);
    expect(filesIn(join(cwd, 'filled'))).toEqual(through);
  });

  it('leaves nothing where it could not begin: a disk that is full', () => {
    const words = [process.execPath, script, ...spread, '--out', 'full'].map((word) => `'${word}'`).join(' ');
    const { status, stderr } = spawnSync('sh', ['-c', `ulimit -f 10; exec ${words}`], {
      cwd,
      encoding: 'utf8',
    });
    expect([status, stderr.includes('a file that grows beyond what is allowed there')]).toEqual([3, true]);
    expect(readdirSync(cwd)).not.toContain('full');
  });

  it('refuses a place where a study lies, unless it is told what to do', () => {
    const { code, err } = buswake(cwd, ...spread, '--out', 'through');
    expect(code).toBe(3);
    expect(err).toMatchInlineSnapshot(`
      "through/trials.jsonl
        found     a study begun there already
        expected  an empty place, or a wish to go on
        mend      give --resume to continue it, --force to start again
      1 problem. Nothing was run.
      "
    `);
  });

  it('refuses to resume against changed inputs, with both sums', () => {
    const own = ownFolder();
    mkdirSync(join(own, 'kept'));
    cpSync(join(cwd, 'part-1'), join(own, 'kept'), { recursive: true });
    const tray = join(own, 'models/tray-20kw.yaml');
    writeFileSync(tray, readFileSync(tray, 'utf8').replace('value: 2.4 mΩ', 'value: 2.5 mΩ'));
    const { code, err } = buswake(own, ...spread, '--out', 'kept', '--resume');
    expect(code).toBe(3);
    expect(err.match(/with sum [0-9a-f]{64}/g)).toHaveLength(2);
    expect(err).toMatch(/changed: models\/tray-20kw\.yaml \([0-9a-f]{12} then, [0-9a-f]{12} now\)/);
    const other = buswake(cwd, ...spread, '--seed', '2', '--out', 'through', '--resume');
    expect([other.code, other.err.includes('changed: the study itself')]).toEqual([3, true]);
  });

  it('repeats a sample by one printed command, to the same verdict', () => {
    const printed = buswake(cwd, ...spread, '--sample', '5').out.trim();
    const report = JSON.parse(asPrinted(cwd, `${printed} --json`)) as {
      findings: { headroom_ratio: number | null; verdict: string }[];
    };
    const judged = report.findings.filter(({ verdict }) => verdict === 'pass' || verdict === 'fail');
    const least = Math.min(...judged.flatMap(({ headroom_ratio }) => headroom_ratio ?? []));
    const study = JSON.parse(through['study.json']!) as { samples: { headroom_ratio: number }[] };
    // A sample of which no limit could be judged has no headroom: the study then ranks it last.
    expect(study.samples[4]?.headroom_ratio).toBe(Number.isFinite(least) ? least : -1);
  });
});

/** A load that the smallest cabinet can be rated by. */
const benchPulses = [
  'title: Bench, pulses',
  'cabinet: ../models/bench-cabinet.yaml',
  'duration: 0.2 s',
  'start: settled',
  'load: { kind: pulse-train, low: 3 kW, high: 10 kW, period: 0.1 s, duty: 60 %, edge: 1 ms }',
  '',
].join('\n');

describe('a search', () => {
  const vary = [
    ...[
      'bench-step',
      '--vary',
      'trays.power_limit=10 kW | 20 kW',
      '--vary',
      'banks.capacitance=60 mF | 80 mF',
    ],
    ...['--set', 'duration=0.2 s'],
  ];
  const merged = ['--merge', 'part-1', 'part-2', 'part-3'];

  /** A study whole and in parts; its words, and how the last part was told. */
  function inParts(cwd: string, ...words: readonly string[]): string {
    expect(buswake(cwd, ...words, '--out', 'whole').err).toBe('');
    const parts = [1, 2, 3].map((k) => buswake(cwd, ...words, '--part', `${k}/3`, '--out', `part-${k}`).out);
    expect(buswake(cwd, ...words, ...merged, '--out', 'merged').err).toBe('');
    expect(filesIn(join(cwd, 'merged'))).toEqual(filesIn(join(cwd, 'whole')));
    return parts[2]!;
  }

  it.each([
    ['designs', [...vary, '--objective', 'losses'], 'simulations'],
    [
      'rating',
      [
        'scenarios/bench-pulses.yaml',
        '--from',
        '90 %',
        '--to',
        '110 %',
        '--within',
        '10 %',
        '--duty',
        '50 %, 70 %',
      ],
      'ratings',
    ],
  ])('%s in parts that are merged equals the whole', { timeout: 300_000 }, (study, words, what) => {
    const cwd = ownFolder();
    writeFileSync(join(cwd, 'scenarios/bench-pulses.yaml'), benchPulses);
    expect(inParts(cwd, study, ...words)).toMatch(
      new RegExp(`^part 3 of 3: 1 of [24] ${what}, in part-3\n$`),
    );
  });

  it('size in parts that are merged equals the whole, and refuses parts that do not make one', () => {
    const cwd = ownFolder();
    const all = ['size', ...vary, '--answer-alone'];
    expect(inParts(cwd, ...all)).toBe('part 3 of 3: 1 of 4 simulations, in part-3\n');
    const without = buswake(cwd, ...all, '--merge', 'part-1', 'part-3', '--out', 'holes');
    expect(without.err).toContain('parts without');
    expect(buswake(cwd, ...all, '--merge', 'part-4', '--out', 'nothing').err).toContain('no such file');
    expect(readdirSync(cwd).filter((name) => ['holes', 'nothing'].includes(name))).toEqual([]);
    // A part stays what it is, and a study that lies there as it was.
    const before = [filesIn(join(cwd, 'part-1')), filesIn(join(cwd, 'merged'))];
    const over = buswake(cwd, ...all, ...merged, '--out', './part-1', '--force');
    expect([over.code, over.err.includes('one of the parts that are merged')]).toEqual([3, true]);
    const holes = buswake(cwd, ...all, '--merge', 'part-1', 'part-3', '--out', 'merged', '--force');
    expect([holes.code, holes.err.includes('parts without')]).toEqual([3, true]);
    expect([filesIn(join(cwd, 'part-1')), filesIn(join(cwd, 'merged'))]).toEqual(before);
  });

  it('refuses a part of which there is nothing, a part and a merge at once, and either without a place', () => {
    const all = ['size', 'bench-step', '--vary', 'banks.capacitance=60 mF | 80 mF'];
    const said = (...words: readonly string[]): string => buswake(root, ...all, ...words).err;
    expect(said('--part', '3/3', '--out', 'out/never')).toContain('part 3 of 3 of 2 simulations');
    expect(said('--part', '1/2')).toContain('--part without --out');
    expect(said('--merge', 'a', 'b')).toContain('--merge without --out');
    expect(said('--part', '1/2', '--merge', 'a', '--out', 'out/never')).toContain('one of them');
  });
});

describe('the command that a study prints to repeat it', () => {
  it('holds every option that says what the study is: a sample comes out as it was drawn', () => {
    const options = [
      ...['spread', 'bench-step', '--set', 'duration=0.1 s', '--samples', '7', '--seed', '5'],
      ...['--sampling', 'plain', '--of', 'bus_min_V', '--tolerance', 'trays.esr=normal by 10 %, common'],
      ...['--tolerance', 'shelves.set_point_offset=uniform plus 0.25 %'],
    ];
    const { out } = buswake(root, ...options, '--workers', '1');
    const { worst } = JSON.parse(buswake(root, ...options, '--json').out) as { worst: { replay: string }[] };
    const printed = /the command that repeats the worst: (.+)/.exec(out)?.[1] ?? '';
    expect(withoutCall(asPrinted(root, printed))).toBe(`${withoutCall(worst[0]!.replay)}\n`);
    expect(printed).not.toContain('workers');
    expect(withoutCall(/keep the report: (.+)/.exec(out)?.[1] ?? '')).toBe(
      "spread bench-step --set 'duration=0.1 s' --tolerance 'trays.esr=normal by 10 %, common' " +
        "--tolerance 'shelves.set_point_offset=uniform plus 0.25 %' --samples 7 --seed 5 --sampling plain " +
        '--of bus_min_V --out out/study',
    );
  });
});

describe('compare', () => {
  it('names what changed between two kept runs, and nothing between a run and itself', () => {
    const cwd = ownFolder();
    const run = ['run', 'scenarios/bench-step.yaml', '-q', '--set', 'duration=0.2 s'];
    buswake(cwd, ...run, '--out', 'a');
    buswake(cwd, ...run, '--set', 'trays.esr=4 mΩ', '--out', 'b');
    const changed = JSON.parse(buswake(cwd, 'compare', 'a', 'b', '--json').out) as {
      inputs: { what: string }[];
      metrics: { name: string }[];
    };
    expect(changed.inputs.map(({ what }) => what)).toEqual(['trays.T1.esr_ohm']);
    expect(changed.metrics.map(({ name }) => name)).toContain('tray_capacitor_current_rms_A');
    const same = JSON.parse(buswake(cwd, 'compare', 'a', 'a', '--json').out) as Record<string, unknown[]>;
    expect([same['inputs'], same['metrics'], same['findings']]).toEqual([[], [], []]);
  });
});

describe('size', () => {
  it('without a solution ends with 4 and says which limit never clears and how near it came', () => {
    const { code, out } = buswake(
      root,
      ...['size', 'single-step', '-q', '--set', 'duration=0.3 s', '--vary', 'trays.count=10'],
      ...['--set', 'limits.share-transient.normal=0.1 %'],
    );
    expect(code).toBe(4);
    expect(out).toMatch(
      /^Nothing that was tried passes: share-transient never clears at \S+; nearest at \d+ \([\d.]+ % against 0\.1 %\)\.\n$/,
    );
  });

  it('with nothing to vary says what to write', () => {
    const { code, err } = buswake(root, 'size', 'single-step');
    expect(code).toBe(3);
    expect(err).toMatchInlineSnapshot(`
      "vary
        found     nothing to vary in single-step
        expected  one path or two
        mend      give for example --vary "trays.count=6 to 14"
      1 problem. Nothing was run.
      "
    `);
  });
});

describe('a study that is refused once it runs', () => {
  it('leaves nothing behind, so that the corrected call finds its place free', () => {
    const cwd = ownFolder();
    const asked = (load: string) =>
      buswake(cwd, 'response', 'scenarios/bench-step.yaml', '--at', load, '--out', 'kept');
    expect([asked('49 MW').code, readdirSync(cwd).includes('kept')]).toEqual([3, false]);
    expect(asked('1 kW').code).toBe(0);
  });
});
