/** The page of a run on a phone: one column, verdict first, fingers that pan and pinch. */
import type { CDPSession, Page } from 'playwright-core';
import { beforeAll, beforeEach, expect, it } from 'vitest';
import { syntheticRun } from '../fixtures/run.ts';
import { goTo, runPage, settle } from './run-page.ts';

const open = runPage(() => syntheticRun(30));
const viewport = { width: 390, height: 844 };

let page: Page;
let fingers: CDPSession;

beforeAll(async () => {
  ({ page } = await open({ viewport, hasTouch: true, isMobile: true, colorScheme: 'light' }));
  fingers = await page.context().newCDPSession(page);
});

beforeEach(() => goTo(page, '#at=8'));

const shown_s = async (): Promise<number> => {
  const words = await page.locator('#ruler .span').textContent();
  const [, value, unit] = /· ([\d.]+) (ms|s) shown/.exec(words ?? '') ?? [];
  return Number(value) * (unit === 'ms' ? 1e-3 : 1);
};

/** Fingers at these places [px from the left of the bus panel's plot], moved through the others in turn. */
async function touch(...moves: readonly (readonly number[])[]): Promise<void> {
  await page.locator('#panel-bus .plot').scrollIntoViewIfNeeded();
  const box = (await page.locator('#panel-bus .plot').boundingBox())!;
  const y = box.y + box.height / 2;
  const points = (places: readonly number[]): { x: number; y: number; id: number }[] =>
    places.map((x, id) => ({ x: box.x + x, y, id }));
  const [first = [], ...rest] = moves;
  await fingers.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: points(first) });
  for (const places of rest)
    await fingers.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: points(places) });
  await fingers.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  await settle(page);
}

it('shows verdict, binding limit, place and moment on the first screen', async () => {
  for (const part of ['#verdict-word', '.outcome', '.binding .what', '.binding .when', '.conditions']) {
    const box = (await page.locator(part).boundingBox())!;
    expect(box.y + box.height, part).toBeLessThanOrEqual(viewport.height);
  }
});

it('gives verdict and outcome the whole width', async () => {
  const word = (await page.locator('.word').boundingBox())!;
  for (const part of ['.word h2', '.outcome']) {
    const box = (await page.locator(part).boundingBox())!;
    expect([box.x, box.width], part).toEqual([word.x, word.width]);
  }
});

it('draws as wide as the screen, with the numbers under the drawing, and scrolls no way but down', async () => {
  for (const id of ['bus', 'carriers', 'ac', 'ramps', 'trays', 'shelves']) {
    const plot = (await page.locator(`#panel-${id} .plot`).boundingBox())!;
    const numbers = (await page.locator(`#panel-${id} .readout`).boundingBox())!;
    expect(plot.width, id).toBeGreaterThan(0.85 * viewport.width);
    expect(numbers.y, id).toBeGreaterThanOrEqual(plot.y + plot.height);
  }
  const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  expect(wider).toBeLessThanOrEqual(0);
});

it('folds what comes after the traces, and unfolds it at a touch', async () => {
  const height = (): Promise<number> => page.evaluate(() => document.documentElement.scrollHeight);
  const folded = await height();
  expect(folded).toBeLessThan(6000);
  await page.getByRole('button', { name: 'show spectrum of the AC power' }).tap();
  await settle(page);
  expect(await height()).toBeGreaterThan(folded + 200);
  expect((await page.locator('#spectrum canvas').boundingBox())!.width).toBeGreaterThan(200);
  await page.getByRole('button', { name: 'hide spectrum of the AC power' }).tap();
});

it('lets the reason of a limit stand whole, however long', async () => {
  const reason = page.locator('.finding .why').first();
  const cut = await reason.evaluate((why) => {
    const said = why.textContent;
    why.textContent =
      'needs 4 s of steady operation; the longest stretch, 10 s clear of every start, '.repeat(4);
    const hidden = why.scrollHeight - why.clientHeight;
    why.textContent = said;
    return hidden;
  });
  expect(cut).toBeLessThanOrEqual(1);
});

it('stretches the view under two fingers and moves it under one', async () => {
  expect(await shown_s()).toBeCloseTo(30, 3);
  await touch([150, 250], [140, 260], [120, 280], [100, 300]);
  // Fingers 100 px apart are 200 px apart: half the time is shown.
  expect(await shown_s()).toBeCloseTo(15, 0);
  const first = (): Promise<string | null> =>
    page.locator('#ruler .time-axis .tick text').first().textContent();
  const before = Number.parseFloat((await first()) ?? '');
  await touch([300], [280], [200]);
  expect(Number.parseFloat((await first()) ?? '')).toBeGreaterThan(before + 2);
  expect(await shown_s()).toBeCloseTo(15, 0);
});

it('holds the cursor where it is tapped', async () => {
  await touch([200]);
  const now = await page.locator('#ruler .now').textContent();
  expect(now).not.toBe('8.00 s');
});
