/** The package outside its checkout: command, library in Node and in a page, types, from the tarball alone. */
import { existsSync, readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join, normalize } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launch } from '../browser/browser.ts';
import { type Installed, installed } from './installed.ts';

let mine: Installed;

beforeAll(async () => {
  mine = await installed();
}, 180_000);

afterAll(() => mine?.remove());

/** Does it, and gives what it printed. */
function printed(program: string, ...words: readonly string[]): string {
  const { status, stdout, stderr } = mine.does(program, ...words);
  expect(`${status} ${stderr}`).toMatch(/^0 /);
  return stdout;
}

const command = 'node_modules/.bin/buswake';

/** Examples of the library's page, by the names of their files. */
const examples = new Map(
  [
    ...readFileSync('src/library/library.md', 'utf8').matchAll(
      /<!-- example: (\S+) -->\n\n```js\n([\s\S]*?)```/g,
    ),
  ].map(([, name, text]) => [name!, text!]),
);

describe('the installed command', () => {
  it('came with one package and what that needs', () => {
    expect(mine.packages.filter((name) => !name.startsWith('@napi-rs/')).sort()).toEqual([
      'buswake',
      'piscina',
    ]);
  });

  it('runs, keeps, shows and verifies', () => {
    expect(printed(command, '--version')).toMatch(/^\d+\.\d+\.\d+ \(build [0-9a-f]{12}\)\n$/);
    expect(printed(command, 'run', 'pulse-train', '--set', 'duration=2 s', '--out', 'run')).toMatch(
      /^PASS WITH CONDITIONS/,
    );
    expect(printed(command, 'view', 'run')).toContain('Open it in a browser');
    expect(readFileSync(join(mine.folder, 'run/page.html'), 'utf8')).toMatch(/^<!doctype html>/);
    expect(printed(command, 'verify', 'run', '--quiet')).toMatch(/^same/i);
  });

  it('has the schema that the first line of each of its files names', () => {
    const home = join(mine.folder, 'node_modules/buswake');
    const [first] = readFileSync(join(home, 'scenarios/pulse-train.yaml'), 'utf8').split('\n');
    const name = /\$schema=(\S+)$/.exec(first!)![1]!;
    expect(JSON.parse(readFileSync(join(home, 'scenarios', name), 'utf8'))).toMatchObject({
      title: 'Scenario',
    });
    expect(printed(command, 'explain', 'trays.capacitance')).toContain('a capacitance above 0 F');
  });

  it('runs a controller in TypeScript, and studies on threads', () => {
    const { status } = mine.does(command, 'run', 'own-share', '--set', 'duration=0.5 s', '--quiet');
    expect([0, 6]).toContain(status);
    const words = [
      '--samples',
      '2',
      '--tolerance',
      'shelves.droop=uniform by 5 %',
      '--workers',
      '2',
      '--json',
    ];
    const spread = mine.does(command, 'spread', 'single-step', '--set', 'duration=0.3 s', ...words);
    expect((JSON.parse(spread.stdout) as { readonly runs: number }).runs).toBe(2);
  });
});

describe('the installed library', () => {
  it('runs the examples of its page in Node', () => {
    for (const [name, text] of examples) mine.write(name, text);
    expect(examples.get('size.mjs')!.split('\n').length).toBeLessThanOrEqual(21);
    const sized = printed('node', 'size.mjs').trimEnd().split('\n');
    expect(sized[0]).toMatch(/^60 F: fail \(/);
    expect(sized.at(-1)).toMatch(/^\d+ F: pass_with_conditions \(/);
    const read = printed('node', 'read.mjs');
    expect(read).toMatch(/^inconclusive of \d+ inputs\nbus-steady-low /);
    expect(read).toMatch(/lowest 48\.\d{3} V between 0\.10/);
  });

  it('has types that a project of its own compiles with, and that refuse what is wrong', () => {
    mine.write(
      'consumer.ts',
      `import { BadInput, type Judged, run, type ShareController, size, traceOf } from 'buswake';
import { run as runInPage, scenarios } from 'buswake/browser';

const { report, result }: Judged = run('pulse-train', { set: { duration: '2 s' }, waive: { trim: 'retuned' } });
const dip: number | null = report.metrics.bus_min_V;
const power: Float32Array = traceOf(result, 'total.ac_power_W').mean;
const needed: Promise<Readonly<Record<string, string>> | null> = size('trays', { workers: 2 }).then((r) => r.result);
export const controller: ShareController = { run: ({ current_ratio }) => current_ratio.map(() => 0) };
try {
  runInPage(scenarios[0]!, { files: { 'mine.yaml': 'title: mine' } });
} catch (error) {
  if (error instanceof BadInput) console.log(error.problems[0]?.mend, dip, power, needed);
}
// @ts-expect-error a change is a text with its unit
run('pulse-train', { set: { duration: 2 } });
// @ts-expect-error no such field
report.verdicts;
`,
    );
    mine.write(
      'tsconfig.json',
      JSON.stringify({
        compilerOptions: {
          strict: true,
          module: 'NodeNext',
          target: 'ES2022',
          lib: ['ES2023', 'DOM'],
          types: [],
          noEmit: true,
        },
        files: ['consumer.ts'],
      }),
    );
    const compiler = join(process.cwd(), 'node_modules/typescript/lib/tsc.js');
    expect(mine.does('node', compiler, '-p', '.').stdout).toBe('');
  });

  it('has no word of the machine that packed it', () => {
    for (const name of ['node.js', 'browser.js', 'node.d.ts', 'browser.d.ts']) {
      const path = join(mine.folder, 'node_modules/buswake/dist/library', name);
      expect(existsSync(path)).toBe(true);
      expect(readFileSync(path, 'utf8')).not.toContain(process.cwd());
    }
  });
});

describe('the installed library in a page', () => {
  let browser: Browser;
  let server: Server;

  beforeAll(async () => {
    server = createServer(({ url }, response) => {
      const path = join(mine.folder, normalize(url!));
      if (url === '/')
        response.setHeader('Content-Type', 'text/html').end('<!doctype html><title>mine</title>');
      else if (existsSync(path))
        response.setHeader('Content-Type', 'text/javascript').end(readFileSync(path));
      else response.writeHead(404).end();
    });
    await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
    browser = await launch();
  });

  afterAll(async () => {
    await browser?.close();
    server?.close();
  });

  /** What a module posts that a page starts as a worker. */
  async function posted(name: string, text: string): Promise<unknown> {
    mine.write(name, text.replace('buswake/browser', '/node_modules/buswake/dist/library/browser.js'));
    const page = await browser.newPage();
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
    return page.evaluate(
      (script) =>
        new Promise<unknown>((resolve, reject) => {
          const worker = new Worker(script, { type: 'module' });
          worker.onmessage = ({ data }) => resolve(data);
          worker.onerror = ({ message }) => reject(new Error(message));
        }),
      `/${name}`,
    );
  }

  it('runs in a worker and reports what Node reports', async () => {
    const there = await posted('worker.js', examples.get('worker.mjs')!);
    mine.write(
      'here.mjs',
      `import { run } from 'buswake';
const { report } = run('single-step', { set: { duration: '0.5 s' } });
console.log(JSON.stringify(report));`,
    );
    const here: unknown = JSON.parse(printed('node', 'here.mjs'));
    expect(comparable(there)).toEqual(comparable(here));
  });

  it('reads a kept run, and refuses one that was changed', async () => {
    const told = await posted(
      'reader.js',
      `import { BadInput, readBundle } from 'buswake/browser';
const bytes = async (name) => new Uint8Array(await (await fetch('/kept/' + name)).arrayBuffer());
const files = { 'manifest.json': await bytes('manifest.json') };
const manifest = JSON.parse(new TextDecoder().decode(files['manifest.json']));
for (const { name } of manifest.files) files[name] = await bytes(name);
const { verdict } = readBundle(files).report;
files['report.json'][100] ^= 1;
try {
  readBundle(files);
  postMessage([verdict, 'read']);
} catch (error) {
  postMessage([verdict, error instanceof BadInput ? error.problems[0].file : String(error)]);
}`,
    );
    expect(told).toEqual(['inconclusive', 'report.json']);
  });
});

/** Of a report what does not say where its files lay, as JSON has it. */
function comparable(report: unknown): unknown {
  return JSON.parse(
    JSON.stringify(report, (key, value: unknown) => (key === 'inputs' ? undefined : value)).replaceAll(
      /[\w./-]*\/?((?:scenarios|models)\/[\w-]+\.yaml)/g,
      '$1',
    ),
  );
}
