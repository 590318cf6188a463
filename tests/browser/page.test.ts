/** The page of a run on a wide screen: draws, answers, and asks the network for nothing. */
import type { Page } from 'playwright-core';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { syntheticRun } from '../fixtures/run.ts';
import { goTo, type RunPage, runPage, settle } from './run-page.ts';

const open = runPage(() => syntheticRun(30));

let opened: RunPage;
let page: Page;

beforeAll(async () => {
  opened = await open({ viewport: { width: 1440, height: 900 }, colorScheme: 'light' });
  page = opened.page;
});

async function press(key: string, times = 1): Promise<void> {
  for (let k = 0; k < times; k += 1) await page.keyboard.press(key);
  await settle(page);
}

const text = (selector: string): Promise<string | null> => page.locator(selector).textContent();
const ticks = (): Promise<string[]> => page.locator('#ruler .time-axis .tick text').allTextContents();
const inSight = (selector: string): Promise<boolean> =>
  page.locator(selector).evaluate((element) => {
    const { top, bottom } = element.getBoundingClientRect();
    return top >= 0 && bottom <= innerHeight;
  });

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

describe('the first screen', () => {
  it('opens from disk at the moment that binds, with the whole run shown', async () => {
    expect(await text('#ruler .now')).toBe('8.42 s');
    expect(await text('#ruler .span')).toContain('30 s shown');
    expect(opened.complaints).toEqual([]);
    expect(opened.requests).toEqual([]);
  });

  it('says the verdict before its traces are unpacked', async () => {
    const other = await page.context().browser()!.newPage();
    await other.addInitScript(() => {
      new MutationObserver((_, observer) => {
        if (document.getElementById('verdict-word') === null) return;
        observer.disconnect();
        document.documentElement.dataset['canvasesThen'] = String(document.querySelectorAll('canvas').length);
      }).observe(document, { childList: true, subtree: true });
    });
    await other.goto(page.url());
    await other.waitForSelector('html[data-ready="true"]');
    expect(await other.locator('html').getAttribute('data-canvases-then')).toBe('0');
    expect(await other.locator('canvas').count()).toBeGreaterThan(5);
    await other.close();
  });

  it('says verdict, outcome, what binds, where and when, with every condition open', async () => {
    expect(await text('#verdict-word')).toBe('Fail');
    expect(await text('.outcome')).toBe('outcomesteady: nothing stopped, was limited or carried');
    expect(await page.locator('.binding dd').allTextContents()).toEqual([
      'Bus steady, low side',
      '47.86 V / 48.00 Vover by 7.0 %',
      'sled-8',
      '8.42 s',
    ]);
    expect(await page.locator('.conditions li').allTextContents()).toEqual([
      'stated coolant at 30 °C or below (pulse-train)',
      'waived breaker waived until 2030-06-30 (reviewer)',
      'inconclusive Bus below 0.1 ms, low side; Single tone, 7–100 Hz',
    ]);
    expect(await text('.conditions .term')).toBe('also');
    expect(await text('.basis summary')).toBe(
      'Basis simple acceptance, not guarded · judged on 2030-01-01 · 3 entries',
    );
    expect(await text('.counts')).toContain('2 inconclusive');
  });

  it('holds verdict, cabinet, ruler and the strip of bus, carriers and AC', async () => {
    for (const part of ['#verdict', '.small-cabinet', '#ruler', '#panel-bus', '#panel-carriers', '#panel-ac'])
      expect(await inSight(part), part).toBe(true);
  });

  it('marks the unit that binds on the small cabinet', async () => {
    expect(await page.locator('.small-cabinet .binding').getAttribute('aria-label')).toBe('sled-8');
    expect(await text('.small-cabinet figcaption')).toMatch(/^the cabinet at 8.42 s: S shelves/);
  });
});

describe('the page at 1440 by 900', () => {
  beforeEach(() => goTo(page, '#at=0'));

  it('tells each feeder at its point of connection, an estimate marked as one', async () => {
    const grid = await text('#grid');
    expect(grid).toContain('F1 on 10 MVA, 50 Hz');
    expect(grid).toMatch(/Pst, estimate: 28.8 s repeated0.041/);
    expect(await page.locator('#grid table.groups').count()).toBe(2);
  });

  it('has a row for each unit that answered a step, and counts those that were still', async () => {
    const paper = page.locator('.paper', { hasText: 'Responses to steps' });
    expect(await paper.locator('.note').textContent()).toMatch(/^Responses to 2 edges and events/);
    expect(await paper.locator('tbody tr').evaluateAll((rows) => rows.map((row) => row.textContent))).toEqual(
      ['S1196 A (90.1 %)263 A (comes back)not settled2.07 sslew 0.27 %', '2 trays: still'],
    );
  });

  it('shows of each bar current, share of rating and rise, in words beside the colour', async () => {
    expect(await page.locator('#warmth header p').textContent()).toBe(
      'rack.1-2 comes nearest: 4 kA RMS, 59 K over its air, 119 % of what is allowed.',
    );
    const figures = await page.locator('#warmth svg .figure').allTextContents();
    expect(figures).toEqual(
      expect.arrayContaining([
        'LA1 1,540 A (77 %)',
        '33 K, joint 6.4 K more',
        '4,000 A · 59 K !',
        '900 A',
        '14 K',
      ]),
    );
    const rows = await page.locator('#warmth tbody tr').allTextContents();
    expect(rows).toHaveLength(4);
    expect(rows[0]).toMatch(/^rack\.1-2.*111 %.*over what is allowed$/);
    expect(rows.at(-1)).toMatch(/^tie.*no rating stated$/);
    const stroke = (kind: string): Promise<string> =>
      page
        .locator(`#warmth path.${kind}`)
        .first()
        .evaluate((bar) => getComputedStyle(bar).stroke);
    expect(await stroke('warmth-over')).not.toBe(await stroke('warmth-above-half'));
  });

  it('has a row for each guarded unit, the nearest to its curve first', async () => {
    const rows = await page
      .locator('.paper', { hasText: 'Protection against' })
      .locator('tbody tr')
      .allTextContents();
    expect(rows[0]).toBe('K1fuse25 A80 A60 A20 ms100 ms, 20 %throughout, magnetic3 s');
    expect(rows[1]).toContain('never up to its lowest current');
  });

  it('draws polls over what happened as wide as the page, with axes in the type of other panels', async () => {
    const drawing = page.locator('.polls svg');
    const [box, host] = [(await drawing.boundingBox())!, (await page.locator('.polls').boundingBox())!];
    expect(Math.abs(box.width - host.width)).toBeLessThan(1);
    expect(await drawing.locator('circle').count()).toBe(3);
    const size = await drawing
      .locator('.value text')
      .first()
      .evaluate((text) => text.getBoundingClientRect().height);
    expect(size).toBeLessThan(18);
    // What is left of something that decayed is 0, not 1e-90.
    expect(await page.locator('.paper', { hasText: 'What port' }).locator('tbody').textContent()).toContain(
      '600 A0 A700 A',
    );
  });

  it('draws every panel: no canvas is blank', async () => {
    for (const id of ['bus', 'carriers', 'ac', 'ramps', 'trays', 'shelves']) {
      await page.locator(`#panel-${id}`).scrollIntoViewIfNeeded();
      await settle(page);
      expect(await colours(`#panel-${id} canvas`), id).toBeGreaterThan(3);
    }
    expect(await colours('#spectrum canvas')).toBeGreaterThan(3);
    expect(await colours('#ruler canvas')).toBeGreaterThan(1);
  });

  it('lists every limit, the binding one first, and takes a finding to its moment', async () => {
    expect(await page.locator('.finding').count()).toBe(16);
    expect(await page.locator('.finding').first().getAttribute('data-id')).toBe('bus-steady-low');
    await page.locator('[data-id="ac-ramp-100ms"]').click();
    await settle(page);
    expect(Number.parseFloat((await text('#ruler .now')) ?? '')).toBeCloseTo(3.21, 3);
    expect(await text('.detail')).toContain('Limit ac-ramp-100ms');
    expect(await page.locator('[data-id="ac-ramp-100ms"]').getAttribute('aria-pressed')).toBe('true');
  });

  it('brings panel and moment into view by the link of a finding', async () => {
    await page.locator('[data-id="share-transient"]').click();
    await press('0');
    await page.locator('.detail').getByText('See it at').click();
    await settle(page);
    expect(await inSight('#panel-shelves')).toBe(true);
    expect(await text('#ruler .now')).toBe('1.61000 s');
    expect(await text('#ruler .span')).toContain('50 ms shown');
  });

  it('brings the panel into view by a step of what led there, at the step’s own moment', async () => {
    await page.locator('[data-id="bus-steady-low"]').click();
    await press('0');
    await page.locator('.detail').getByText('T3: power limit').click();
    await settle(page);
    expect(await inSight('#panel-bus')).toBe(true);
    expect(await text('#ruler .now')).toBe('8.00100 s');
  });

  it('lays any node over the bus band and takes it away again', async () => {
    const before = await page.locator('#panel-bus .readout tr').count();
    await page.selectOption('#node-picker', { label: 'rack.16' });
    await settle(page);
    expect(await text('#panel-bus .readout')).toContain('rack.16');
    expect(await page.locator('#panel-bus .readout tr').count()).toBe(before + 1);
    await page.locator('#panel-bus .chip').click();
    expect(await page.locator('#panel-bus .readout tr').count()).toBe(before);
    await page.locator('#panel-bus h3').click();
  });

  it('zooms, pans and resets with keys, the axis follows and the strip of the whole run stays', async () => {
    const strip = (): Promise<string> =>
      page.locator('.overview canvas').evaluate((canvas) => (canvas as HTMLCanvasElement).toDataURL());
    const [whole, drawn] = [await ticks(), await strip()];
    expect(whole[0]).toBe('0 s');
    await press('Shift+ArrowRight', 10);
    await press('+', 3);
    expect(await text('#ruler .span')).toContain('3.75 s');
    expect(await ticks()).not.toEqual(whole);
    expect(await strip()).toBe(drawn);
    await press('-');
    expect(await text('#ruler .span')).toContain('7.5 s');
    await press('0');
    expect(await ticks()).toEqual(whole);
  });

  it('says over how long it draws smallest and largest where no single steps are kept', async () => {
    const levels = async (hash: string): Promise<string | null> => {
      await goTo(page, hash);
      return text('#ruler .levels');
    };
    expect(await levels('#at=0')).toBe('');
    expect(await levels('#view=12,12.1&at=12')).toMatch(/^smallest and largest over \d+ ms$/);
    expect(await levels('#view=1.12,1.13&at=1.12')).toBe('');
    await goTo(page, '#at=0');
  });

  it('writes no two ticks alike at any zoom', async () => {
    for (let zoom = 0; zoom < 21; zoom += 1) {
      await press('+');
      const shown = await ticks();
      expect(new Set(shown).size, shown.join(', ')).toBe(shown.length);
    }
  });

  it('moves the cursor with arrow keys and every read-out with it', async () => {
    await press('Shift+ArrowRight', 3);
    expect(await text('#ruler .now')).toBe('4.50 s');
    expect(await text('#panel-carriers .readout')).toMatch(/demand of the sleds\s*100\.0 kW/);
    await page.locator('#cabinet').scrollIntoViewIfNeeded();
    await settle(page);
    expect(await text('#cabinet h3')).toBe('The cabinet at 4.50 s');
    await press('n');
    expect(await text('#ruler .now')).toBe('4.50 s');
    await press('p');
    expect(await text('#ruler .now')).toBe('1.60 s');
  });

  it('zooms by dragging and by the wheel with Ctrl held, and leaves the plain wheel to the page', async () => {
    const box = (await page.locator('#panel-bus .plot').boundingBox())!;
    const y = box.y + box.height / 2;
    await page.mouse.move(box.x + 300, y);
    await page.mouse.down();
    await page.mouse.move(box.x + 500, y, { steps: 4 });
    await page.mouse.up();
    await settle(page);
    const dragged = await text('#ruler .span');
    expect(dragged).not.toContain('30 s shown');
    await page.mouse.wheel(0, 20);
    await settle(page);
    expect(await text('#ruler .span')).toBe(dragged);
    await page.keyboard.down('Control');
    await page.mouse.wheel(0, 400);
    await page.keyboard.up('Control');
    await settle(page);
    expect(await text('#ruler .span')).not.toBe(dragged);
  });

  it('shows another stretch by drawing its window on the strip of the whole run', async () => {
    const box = (await page.locator('.overview').boundingBox())!;
    const at = (share: number): number => box.x + share * box.width;
    await goTo(page, '#view=0,3&at=0');
    await page.mouse.move(at(0.5), box.y + 10);
    await page.mouse.down();
    await page.mouse.move(at(0.7), box.y + 10, { steps: 4 });
    await page.mouse.up();
    await settle(page);
    const shown = await text('#ruler .span');
    expect(Number.parseFloat(/· ([\d.]+) s shown/.exec(shown ?? '')?.[1] ?? '')).toBeCloseTo(6, 0);
    expect(Number.parseFloat((await ticks())[0] ?? '')).toBeCloseTo(15, 0);
  });

  it('shows current and voltage of a piece of the cabinet on focus, and walks on with arrow keys', async () => {
    await page.locator('#cabinet .bar').first().focus();
    expect(await text('#cabinet .words')).toMatch(/^Bar A\.S1-T1: [\d,.]+ A$/);
    await press('ArrowLeft');
    expect(await text('#cabinet .words')).toMatch(
      /^sled-16: [\d.]+ kW of 15\.0 kW peak; bus here \d\d\.\d\d V$/,
    );
  });

  it('makes a bar as wide as its current, 20 pixels at the largest current of the run', async () => {
    const widest = (): Promise<number> =>
      page
        .locator('#cabinet .copper')
        .evaluateAll((bars) => Math.max(...bars.map((bar) => Number(bar.getAttribute('stroke-width')))));
    await page.locator('#cabinet').scrollIntoViewIfNeeded();
    // At 3.0 s the load is low and the heaviest link bar carries 100 of 240 parts; at 7.5 s it carries all.
    await press('Shift+ArrowRight', 2);
    expect(await widest()).toBeCloseTo((20 * 100) / 240, 1);
    await press('Shift+ArrowRight', 3);
    expect(await widest()).toBeCloseTo(20, 1);
  });

  it('keeps stretch, moment and theme in the address, and is drawn in the colours it names', async () => {
    const paper = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    const light = await paper();
    await goTo(page, '#view=2,5&at=3&theme=dark');
    expect(await text('#theme')).toBe('Theme: dark');
    expect(await paper()).not.toBe(light);
    expect(await text('#ruler .span')).toContain('3 s shown');
    await page.locator('#theme').click();
    await press('+');
    await page.waitForFunction(() => location.hash === '#view=2.5,4&at=3');
    expect(await paper()).toBe(light);
  });

  it('was never complained of', () => {
    expect(opened.complaints).toEqual([]);
    expect(opened.requests).toEqual([]);
  });
});
