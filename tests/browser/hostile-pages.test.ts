/**
 * Hostile text and damaged files in pages of every kind over file:// in Chromium: text stays text, nothing runs but the page's
 * own script, and what cannot be shown says on the page what is wrong and what to do.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readBundleFiles } from '../../src/bundle/read.ts';
import { sha256 } from '../../src/bundle/sum.ts';
import { replayOf } from '../../src/studies/trials/replay.ts';
import { launch } from './browser.ts';
import { everyText, hostile, hostileComparePage, hostileRunPage, hostileStudyPage } from './hostile-texts.ts';

let browser: Browser;
let root: string;
let runPage: string;
let studyPage: string;
let comparePage: string;
let page: Page;
/** Errors of the page, refusals of its policy, requests beyond the file itself. */
let complaints: string[];

beforeAll(async () => {
  browser = await launch();
  page = await browser.newPage({ viewport: { width: 1100, height: 800 } });
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => /^(file|data|blob):/.test(request.url()) || complaints.push(request.url()));
  root = mkdtempSync(join(tmpdir(), 'hostile-'));
  runPage = await hostileRunPage(root);
  studyPage = await hostileStudyPage(root);
  comparePage = await hostileComparePage();
});

afterAll(async () => {
  await browser?.close();
  if (root !== undefined) rmSync(root, { recursive: true });
});

/** Opens it and waits until it is drawn or says why not; what stands in the file may never do either. */
async function open(text: string, end: 'ready' | 'broken' | 'never'): Promise<void> {
  const file = join(root, 'page.html');
  writeFileSync(file, text);
  complaints = [];
  await page.goto(pathToFileURL(file).href);
  if (end !== 'never') await page.waitForSelector(`html[data-${end}="true"]`, { timeout: 20_000 });
}

const struck = (): Promise<unknown> =>
  page.evaluate(() => (globalThis as { struck?: unknown }).struck ?? null);

/** What a page says of itself where it cannot be shown. */
async function refusal(text: string): Promise<string> {
  await open(text, 'broken');
  const said = await page.locator('#broken :is(h2, dt, dd)').allTextContents();
  expect(await page.locator('#broken').isVisible()).toBe(true);
  return said.join(' ');
}

describe('hostile text', () => {
  it('no text of a user stands in the markup of a page', () => {
    for (const text of [...hostile, 'window.struck'])
      for (const whole of [runPage, studyPage, comparePage]) expect(whole).not.toContain(text);
  });

  it('stays text in the page of a run', async () => {
    await open(runPage, 'ready');
    expect(await page.locator('#title').textContent()).toBe(everyText);
    expect(await page.locator('#verdict-summary').textContent()).toBe(everyText);
    await page.locator('.finding').first().click();
    expect(await struck()).toBeNull();
    expect(complaints).toEqual([]);
  });

  it('stays text in the page of a study', async () => {
    await open(studyPage, 'ready');
    expect(await page.locator('#title').textContent()).toBe(everyText);
    await page.locator('.cell').first().click();
    expect(await page.locator('.detail code').textContent()).toBe(
      replayOf({ scenario: everyText, changes: [] }),
    );
    expect(await struck()).toBeNull();
    expect(complaints).toEqual([]);
  });
});

describe('hostile text in the page of two runs', () => {
  it('stays text, in what turned, in the outcome and in what it rests on', async () => {
    await open(comparePage, 'ready');
    expect(await page.locator('#title').textContent()).toBe(`Two runs of ${everyText}`);
    expect(await page.locator('#answer').textContent()).toContain(everyText);
    expect(await page.locator('#tables').textContent()).toContain(everyText);
    expect(await page.locator('#inputs').textContent()).toContain(everyText);
    expect(await struck()).toBeNull();
    expect(complaints).toEqual([]);
  });
});

describe('the policy', () => {
  it('is the same in every kind of page, and names script and style by their sums', () => {
    const sum = "'sha256-[A-Za-z0-9+/]{43}='";
    const policy = new RegExp(
      `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src ${sum} 'wasm-unsafe-eval'; ` +
        `style-src ${sum}; worker-src blob:; img-src data: blob:; connect-src 'none'; base-uri 'none'; form-action 'none'">`,
    );
    for (const whole of [runPage, studyPage, comparePage]) {
      expect(whole).toMatch(policy);
      // It stands before anything that it governs.
      expect(whole.indexOf('Content-Security-Policy')).toBeLessThan(whole.search(/<(?:script|style|link)/));
    }
  });

  it('refuses what would come to life in the page all the same', async () => {
    await open(runPage, 'ready');
    const outcome = await page.evaluate(async () => {
      const at = document.body;
      at.insertAdjacentHTML(
        'beforeend',
        '<img src="x:" onerror="window.struck=1"><p style="color:red">x</p>',
      );
      const script = document.createElement('script');
      script.textContent = 'window.struck=2';
      at.append(script);
      const frame = document.createElement('iframe');
      frame.srcdoc = '<script>parent.struck=3</script>';
      at.append(frame);
      const reached = await fetch('http://127.0.0.1:9/').then(
        () => true,
        () => false,
      );
      // By a timer: what a debugger evaluates itself is free of the policy.
      setTimeout('window.struck=4');
      await new Promise((done) => setTimeout(done, 50));
      return { reached, colour: getComputedStyle(at.querySelector('p:last-of-type')!).color };
    });
    expect(outcome.reached).toBe(false);
    expect(outcome.colour).not.toBe('rgb(255, 0, 0)');
    expect(await struck()).toBeNull();
  });
});

/** The page with other bytes under a name; `sum` of them too, as who knows how would make it. */
function carrying(
  whole: string,
  name: string,
  bytes: string | Uint8Array,
  sum: 'kept' | 'right' = 'right',
): string {
  const element = new RegExp(
    `(<script type="application/gzip" id="file-${name}" data-sha256=")([^"]*)(">)[^<]*`,
  );
  expect(whole).toMatch(element);
  const content = new Uint8Array(typeof bytes === 'string' ? new TextEncoder().encode(bytes) : bytes);
  return whole.replace(
    element,
    (_, head: string, kept: string, open: string) =>
      `${head}${sum === 'right' ? sha256(content) : kept}${open}${gzipSync(content).toString('base64')}`,
  );
}

describe('a file that is not whole', () => {
  it.each([0.999, 0.9, 0.7])('cut at %s of its length says so in the page of a run', async (share) => {
    const said = await refusal(runPage.slice(0, Math.floor(share * runPage.length)));
    expect(said).toBe(
      'This page cannot be shown found a page that stops before its end expected the whole file mend it was cut short ' +
        'while it was copied or sent: copy it again, or make it anew with buswake view',
    );
  });

  it.each(['run', 'study'])('cut within its script, the page of a %s still says what to do', async (kind) => {
    const whole = kind === 'run' ? runPage : studyPage;
    await open(whole.slice(0, whole.indexOf('<script>') + 5000), 'never');
    expect(await page.locator('#opening').isVisible()).toBe(true);
    expect(await page.locator('#opening').textContent()).toContain('make it anew with buswake view');
    expect(await page.title()).toBe('Buswake: not opened');
  });

  it('cut short, the page of a study says so', async () => {
    expect(await refusal(studyPage.slice(0, -60))).toContain('found a page that stops before its end');
  });
});

describe('a file that is not what it should be', () => {
  it('a changed letter of what it carries is found', async () => {
    const at = runPage.indexOf('id="file-picture.bin"') + 2000;
    const other = runPage[at] === 'A' ? 'B' : 'A';
    const said = await refusal(`${runPage.slice(0, at)}${other}${runPage.slice(at + 1)}`);
    expect(said).toContain('in picture.bin found bytes that are not as they were packed');
  });

  it('a whole file put in place of another is found', async () => {
    expect(await refusal(carrying(runPage, 'log.json', '[]', 'kept'))).toMatch(
      /in log\.json found SHA-256 [0-9a-f]{12}…, another than it was packed with/,
    );
  });

  it('a manifest of a later version is named, not drawn', async () => {
    const later = JSON.stringify({ format: 'buswake-bundle', version: 99, kinds: ['new'] });
    expect(await refusal(carrying(runPage, 'manifest.json', later))).toContain(
      'found format version 99 expected format version 4 mend read it with the version of the tool that wrote it',
    );
  });

  it('a foreign manifest, and one that is no JSON, are named', async () => {
    const foreign = await refusal(carrying(runPage, 'manifest.json', '{"name":"app","version":"1.0.0"}'));
    expect(foreign).toContain('in manifest.json, format found nothing expected one of buswake-bundle');
    expect(await refusal(carrying(runPage, 'manifest.json', '<html>'))).toContain(
      'found text that is not JSON',
    );
  });

  it('a report of another run is found, and one that holds something else is named', async () => {
    const text = '{"findings":[],"inputs":[]}';
    const other = carrying(runPage, 'report.json', text);
    expect(await refusal(other)).toContain('in report.json found SHA-256');
    const { manifest } = readBundleFiles(join(root, 'run'));
    const files = manifest.files.map((file) =>
      file.name === 'report.json' ? { ...file, sha256: sha256(new TextEncoder().encode(text)) } : file,
    );
    const foreign = carrying(other, 'manifest.json', JSON.stringify({ ...manifest, files }));
    expect(await refusal(foreign)).toContain('report.json, schema_version found nothing expected 2');
  });

  it('a study of a later version, of another kind and of no kind are named', async () => {
    const said = (report: object): Promise<string> =>
      refusal(carrying(studyPage, 'study.json', JSON.stringify(report)));
    expect(await said({ schema_version: 7, kind: 'matrix' })).toContain('found a report of version 7');
    expect(await said({ schema_version: 1, kind: 'share' })).toContain('found a study without a page');
    expect(await said([])).toContain('found JSON that is no report');
  });
});
