/** What is taken from a plot: its picture, its vectors, its numbers, its table; and that nothing of it needs a connection. */
import type { Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { packPicture, unpackPicture } from '../../src/picture/packed.ts';
import { pictureOf } from '../../src/picture/picture.ts';
import { makeRecord } from '../../web/record.ts';
import { syntheticRun } from '../fixtures/run.ts';
import { bytesOf } from './browser.ts';
import { goTo, type RunPage, runPage, settle } from './run-page.ts';

const bundle = syntheticRun(10);
const open = runPage(() => bundle);

let opened: RunPage;
let page: Page;

beforeAll(async () => {
  opened = await open({ viewport: { width: 1440, height: 900 }, colorScheme: 'dark', acceptDownloads: true });
  page = opened.page;
});

/** What a choice of the menu of a plot saves. */
async function saved(plot: string, choice: string): Promise<{ name: string; bytes: Buffer }> {
  const menu = page.locator(`${plot} .take`).first();
  await menu.locator('summary').click();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    menu.getByRole('button', { name: choice }).click(),
  ]);
  return { name: download.suggestedFilename(), bytes: await bytesOf(download) };
}

/** The record as the page carries it. */
function carried() {
  const { recording } = bundle.result;
  const packed = packPicture(pictureOf(bundle.result), bundle.scenario.tick_s);
  return makeRecord(unpackPicture(packed, recording.channels).recording);
}

it('saves as CSV what the page carries of every series, bit for bit', async () => {
  const { name, bytes } = await saved('#panel-carriers', 'CSV');
  expect(name).toBe(`${bundle.report.scenario.id}-carriers.csv`);
  const [head, ...lines] = bytes.toString().trimEnd().split('\r\n');
  const names = head!.split(',');
  expect(names.slice(0, 5)).toEqual([
    ...['time_s', 'until_s'],
    ...['total.load_W.min', 'total.load_W.max', 'total.load_W.mean'],
  ]);
  const record = carried();
  const rows = lines.map((line) => line.split(',').map(Number));
  expect(rows.length).toBe(record.bucketCount);
  for (const id of ['total.load_W', 'total.trays_W', 'total.capacitors_W']) {
    const series = record.series(id)!;
    for (const part of ['min', 'max', 'mean'] as const) {
      const column = rows.map((row) => row[names.indexOf(`${id}.${part}`)]!);
      expect(Float64Array.from(column), `${id}.${part}`).toEqual(Float64Array.from(series[part]));
    }
  }
  const { edges_s, moments_s } = record;
  const or = (moment_s: number, edge_s: number): number => (Number.isNaN(moment_s) ? edge_s : moment_s);
  expect(rows.map(([from]) => from)).toEqual(Array.from(moments_s, (t, b) => or(t, edges_s[b]!)));
  expect(rows.map(([, until]) => until)).toEqual(Array.from(moments_s, (t, b) => or(t, edges_s[b + 1]!)));
});

it('takes the node that is drawn over the band into the numbers', async () => {
  await page.selectOption('#node-picker', { label: 'rack.16' });
  const { bytes } = await saved('#panel-bus', 'CSV');
  expect(bytes.toString().split('\r\n')[0]).toBe(
    'time_s,until_s,all_nodes.voltage_V.min,all_nodes.voltage_V.max,rack.16.voltage_V.min,rack.16.voltage_V.max,rack.16.voltage_V.mean',
  );
  await page.locator('#panel-bus .chip').click();
});

const plots = [
  '#panel-bus',
  '#panel-carriers',
  '#panel-ac',
  '#panel-ramps',
  '#panel-trays',
  '#panel-shelves',
];

it.each([...plots, '#spectrum', '#envelope'])('saves %s as SVG: vectors in light colours', async (plot) => {
  const { bytes } = await saved(plot, 'SVG');
  const text = bytes.toString();
  const found = await page.evaluate((source) => {
    const { documentElement: root } = new DOMParser().parseFromString(source, 'image/svg+xml');
    const count = (selector: string): number => root.querySelectorAll(selector).length;
    return {
      ...{ root: root.nodeName, broken: count('parsererror'), images: count('image'), paths: count('path') },
      longest: Math.max(...[...root.querySelectorAll('path')].map((path) => path.getAttribute('d')!.length)),
      ground: root.querySelector('rect[width="100%"]')?.getAttribute('fill'),
      words: count('text'),
    };
  }, text);
  expect(found).toMatchObject({ root: 'svg', broken: 0, images: 0, ground: '#fbfcfc' });
  expect(found.paths).toBeGreaterThan(3);
  expect(found.words).toBeGreaterThan(5);
  // A trace has a point for each pixel; stays have a handful.
  expect(found.longest).toBeGreaterThan(plot === '#envelope' ? 30 : 1000);
  expect(text).not.toMatch(/NaN|Infinity|undefined/);
});

it('saves a picture that is not blank, of the stretch that is shown', async () => {
  const first = await saved('#panel-bus', 'PNG');
  expect(first.name).toBe(`${bundle.report.scenario.id}-bus.png`);
  const { width, colours } = await page.evaluate(async (base64) => {
    const image = new Image();
    image.src = `data:image/png;base64,${base64}`;
    await image.decode();
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [image.width, image.height];
    const pen = canvas.getContext('2d', { willReadFrequently: true })!;
    pen.drawImage(image, 0, 0);
    // Every seventh row has something of all that is drawn.
    const seen = new Set<number>();
    for (let y = 0; y < canvas.height; y += 7)
      for (const pixel of new Uint32Array(pen.getImageData(0, y, canvas.width, 1).data.buffer))
        seen.add(pixel);
    return { width: image.width, colours: seen.size };
  }, first.bytes.toString('base64'));
  expect(width).toBe(2000);
  expect(colours).toBeGreaterThan(20);
  await goTo(page, '#view=2,5&at=3');
  expect((await saved('#panel-bus', 'PNG')).bytes.equals(first.bytes)).toBe(false);
});

it('shows by keyboard the table of the rows shown, 200 at most, the cursor’s row marked', async () => {
  await goTo(page, '#at=8.42');
  await page.locator('#panel-ac .take summary').focus();
  await page.keyboard.press('Enter');
  for (let k = 0; k < 4; k += 1) await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await settle(page);
  const table = page.locator('#panel-ac table.numbers');
  expect(await table.locator('caption').textContent()).toMatch(/^AC input: rows \d+ to \d+ of the \d+ /);
  expect(
    await table.locator('thead th').evaluateAll((all) => all.map((th) => th.getAttribute('scope'))),
  ).toEqual(Array(8).fill('col'));
  const rows = table.locator('tbody tr');
  expect(await rows.count()).toBe(200);
  const current = (): Promise<number[]> =>
    table
      .locator('tr[aria-current="true"]')
      .evaluate((row) => [...row.children].map((cell) => Number(cell.textContent?.replace('−', '-'))));
  const [from, until, least, most] = await current();
  expect(from).toBeLessThanOrEqual(8.42);
  expect(until).toBeGreaterThan(8.42);
  expect(least).toBeGreaterThan(1e4);
  expect(most).toBeGreaterThanOrEqual(least!);
  expect(await rows.first().locator('th').getAttribute('scope')).toBe('row');
  await goTo(page, '#at=9.01');
  expect((await current())[1]).toBeGreaterThan(9.01);
  await page.locator('#panel-ac .take summary').click();
  await page.locator('#panel-ac .take').getByRole('button', { name: 'table' }).click();
  expect(await table.count()).toBe(0);
});

it('closes the menu with Escape and keeps the cursor held', async () => {
  await goTo(page, '#at=8.42');
  const menu = page.locator('#panel-trays .take');
  await menu.locator('summary').click();
  await page.keyboard.press('Escape');
  expect(await menu.getAttribute('open')).toBe(null);
  expect(await page.locator('#ruler .now').getAttribute('data-pinned')).toBe('true');
});

it('was never complained of', () => {
  expect(opened.complaints).toEqual([]);
  expect(opened.requests).toEqual([]);
});
