/** The one-file page over file:// in Chromium: draws, answers, and asks the network for nothing. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { readBundleFiles } from '../../src/bundle/read.ts';
import { writeBundle } from '../../src/bundle/write.ts';
import { makePage } from '../../src/cli/pages/page.ts';
import { syntheticRun } from '../fixtures/run.ts';
import { launch } from './browser.ts';

const screens = new URL('../../out/screens/', import.meta.url).pathname;

let browser: Browser;
let root: string;
let file: string;
let page: Page;
let complaints: string[];
let requests: string[];

beforeAll(async () => {
  browser = await launch();
  root = mkdtempSync(join(tmpdir(), 'page-'));
  writeBundle(join(root, 'run'), syntheticRun(30), { force: false });
  file = join(root, 'page.html');
  writeFileSync(file, await makePage(readBundleFiles(join(root, 'run'))));
  mkdirSync(screens, { recursive: true });
});

afterAll(async () => {
  await browser?.close();
  if (root !== undefined) rmSync(root, { recursive: true });
});

async function open(width: number, height: number, colorScheme: 'light' | 'dark'): Promise<void> {
  page = await browser.newPage({ viewport: { width, height }, colorScheme });
  complaints = [];
  requests = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => requests.push(request.url()));
  await page.goto(pathToFileURL(file).href);
  await page.waitForSelector('html[data-ready="true"]', { timeout: 30_000 });
  await settle();
}

/** Two frames: one in which changes are gathered, one in which they are drawn. */
async function settle(): Promise<void> {
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

async function press(key: string, times = 1): Promise<void> {
  for (let k = 0; k < times; k += 1) await page.keyboard.press(key);
  await settle();
}

const spanText = (): Promise<string | null> => page.locator('#ruler .span').textContent();
const cursorText = (): Promise<string | null> => page.locator('#ruler .now').textContent();
const ticks = (): Promise<string[]> => page.locator('#ruler .time-axis .tick text').allTextContents();

/** Different colours on a canvas, counted on a coarse grid. */
function colours(selector: string): Promise<number> {
  return page.locator(selector).evaluate((element) => {
    const canvas = element as HTMLCanvasElement;
    const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
    const seen = new Set<number>();
    for (let k = 0; k < data.length; k += 4 * 7)
      seen.add((data[k]! << 24) ^ (data[k + 1]! << 16) ^ (data[k + 2]! << 8) ^ data[k + 3]!);
    return seen.size;
  });
}

describe('the page at 1400 by 900', () => {
  beforeEach(() => open(1400, 900, 'light'));
  afterEach(() => page.close());

  it('tells each feeder at its point of connection, an estimate marked as one', async () => {
    const text = await page.locator('#grid').textContent();
    expect(text).toContain('F1 on 10 MVA, 50 Hz');
    expect(text).toMatch(/Pst, estimate: 28.8 s repeated0.041/);
    expect(await page.locator('#grid table.groups').count()).toBe(2);
    expect(await colours('#panel-ramps canvas')).toBeGreaterThan(3);
  });

  it('lists what the verdict rests on, conditions first, with who and why; and the day', async () => {
    const text = await page.locator('.basis').textContent();
    expect(text).toContain('Basis: 3 entries, 2 of them conditions');
    expect(text).toContain('Condition, stated: coolant at 30 °C or below (pulse-train)');
    expect(text).toContain(
      'Condition, waived: breaker waived until 2030-06-30 (reviewer) breaker to be replaced',
    );
    expect(await page.locator('.basis li').first().getAttribute('class')).toBe('condition');
    expect(await page.locator('.day').textContent()).toBe('Judged on 2030-01-01.');
  });

  it('opens from disk without a complaint and without asking the network', () => {
    expect(complaints).toEqual([]);
    expect(
      requests.filter(
        (url) => !url.startsWith('file:') && !url.startsWith('data:') && !url.startsWith('blob:'),
      ),
    ).toEqual([]);
  });

  it('states the verdict as a word and a sentence, and counts every limit', async () => {
    expect(await page.locator('#verdict-word').textContent()).toBe('Fail');
    expect(await page.locator('#verdict-summary').textContent()).toBe(
      'The bus at sled-8 stays below 48.0 V for 1.04 s where 1 s is allowed; 1 of 12 judged limits fails.',
    );
    expect(await page.locator('.finding').count()).toBe(16);
    expect(await page.locator('.finding').first().getAttribute('data-id')).toBe('bus-steady-low');
    expect(await page.locator('.counts').textContent()).toContain('2 inconclusive');
  });

  it('draws every panel: no canvas is blank', async () => {
    for (const id of ['bus', 'carriers', 'ac', 'trays', 'shelves'])
      expect(await colours(`#panel-${id} canvas`), id).toBeGreaterThan(3);
    expect(await colours('#spectrum canvas')).toBeGreaterThan(3);
    expect(await colours('#ruler canvas')).toBeGreaterThan(1);
  });

  it('takes a finding to its moment', async () => {
    await page.locator('[data-id="ac-ramp-100ms"]').click();
    await settle();
    expect(Number.parseFloat((await cursorText()) ?? '')).toBeCloseTo(3.21, 3);
    expect(await page.locator('.detail').textContent()).toContain('Limit ac-ramp-100ms');
    expect(await page.locator('[data-id="ac-ramp-100ms"]').getAttribute('aria-pressed')).toBe('true');
  });

  it('lays any node over the bus band and takes it away again', async () => {
    const before = await page.locator('#panel-bus .readout tr').count();
    await page.selectOption('#node-picker', { label: 'rack.16' });
    await settle();
    expect(await page.locator('#panel-bus .readout').textContent()).toContain('rack.16');
    expect(await page.locator('#panel-bus .readout tr').count()).toBe(before + 1);
    await page.locator('#panel-bus .chip').click();
    expect(await page.locator('#panel-bus .readout tr').count()).toBe(before);
  });

  it('zooms, pans and resets with keys, and the axis follows', async () => {
    const whole = await ticks();
    expect(whole[0]).toBe('0 s');
    await press('Shift+ArrowRight', 10);
    await press('+', 3);
    expect(await spanText()).toContain('3.75 s');
    expect(await ticks()).not.toEqual(whole);
    await press('-');
    expect(await spanText()).toContain('7.5 s');
    await press('0');
    expect(await ticks()).toEqual(whole);
  });

  it('moves the cursor with arrow keys and every read-out with it', async () => {
    await press('Shift+ArrowRight', 3);
    expect(await cursorText()).toBe('4.50 s');
    expect(await page.locator('#panel-carriers .readout').textContent()).toMatch(
      /demand of the sleds\s*100\.0 kW/,
    );
    expect(await page.locator('#cabinet h3').textContent()).toBe('The cabinet at 4.50 s');
    await press('n');
    expect(await cursorText()).toBe('4.50 s');
    await press('p');
    expect(await cursorText()).toBe('1.60 s');
  });

  it('zooms by dragging and by the wheel with Ctrl held, and leaves the plain wheel to the page', async () => {
    const box = (await page.locator('#panel-bus .plot').boundingBox())!;
    const y = box.y + box.height / 2;
    await page.mouse.move(box.x + 300, y);
    await page.mouse.down();
    await page.mouse.move(box.x + 500, y, { steps: 4 });
    await page.mouse.up();
    await settle();
    const dragged = await spanText();
    expect(dragged).not.toContain('30 s shown');
    await page.mouse.wheel(0, 200);
    await settle();
    expect(await spanText()).toBe(dragged);
    await page.keyboard.down('Control');
    await page.mouse.wheel(0, 400);
    await page.keyboard.up('Control');
    await settle();
    expect(await spanText()).not.toBe(dragged);
  });

  it('shows current and voltage of a piece of the cabinet on focus, and walks on with arrow keys', async () => {
    await page.locator('#cabinet .bar').first().focus();
    expect(await page.locator('#cabinet .words').textContent()).toMatch(/^Bar A\.S1-T1: [\d,.]+ A$/);
    await press('ArrowLeft');
    expect(await page.locator('#cabinet .words').textContent()).toMatch(
      /^sled-16: [\d.]+ kW of 15\.0 kW peak; bus here \d\d\.\d\d V$/,
    );
  });

  it('makes a bar as wide as its current, 20 pixels at the largest current of the run', async () => {
    const widest = (): Promise<number> =>
      page
        .locator('#cabinet .copper')
        .evaluateAll((bars) => Math.max(...bars.map((bar) => Number(bar.getAttribute('stroke-width')))));
    // At 3.0 s the load is low and the heaviest link bar carries 100 of 240 parts; at 7.5 s it carries all.
    await press('Shift+ArrowRight', 2);
    expect(await widest()).toBeCloseTo((20 * 100) / 240, 2);
    await press('Shift+ArrowRight', 3);
    expect(await widest()).toBeCloseTo(20, 2);
  });

  it('is redrawn in other colours when the theme is switched', async () => {
    const paper = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    const light = await paper();
    await page.locator('#theme').click();
    await page.locator('#theme').click();
    expect(await page.locator('#theme').textContent()).toBe('Theme: dark');
    expect(await paper()).not.toBe(light);
  });
});

describe('the page in every size and theme', () => {
  for (const [width, height] of [
    [1400, 900],
    [900, 900],
  ] as const) {
    for (const theme of ['light', 'dark'] as const) {
      it(`fits ${width} pixels in ${theme} without overflow`, async () => {
        await open(width, height, theme);
        await press('Shift+ArrowRight', 6);
        await page.screenshot({ path: join(screens, `page-${width}-${theme}.png`), fullPage: true });
        const overflow = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        expect(overflow).toBeLessThanOrEqual(0);
        expect(complaints).toEqual([]);
        await page.close();
      });
    }
  }

  it('gives the verdict and its sentence the whole width of a phone', async () => {
    await page.close();
    await open(390, 844, 'light');
    const word = (await page.locator('.word').boundingBox())!;
    for (const part of ['.word h2', '#verdict-summary']) {
      const box = (await page.locator(part).boundingBox())!;
      expect(box.x, part).toBe(word.x);
      expect(box.width, part).toBe(word.width);
    }
  });
});
