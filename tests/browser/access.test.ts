/** What keyboard and screen reader meet on the page of a run: nothing serious found, at both widths, in both themes. */
import { expect, it } from 'vitest';
import { syntheticRun } from '../fixtures/run.ts';
import { seriousOn } from './axe.ts';
import { runPage, settle } from './run-page.ts';

const open = runPage(() => syntheticRun(30));

for (const [width, height] of [
  [1440, 900],
  [390, 844],
] as const) {
  for (const colorScheme of ['light', 'dark'] as const) {
    it(`has nothing serious at ${width} px in ${colorScheme}`, async () => {
      const { page } = await open({ viewport: { width, height }, colorScheme });
      await page.locator('.finding').first().click();
      // Everything that opens stands open.
      await page.evaluate(() => {
        for (const fold of document.querySelectorAll<HTMLElement>(
          '.folded > header > .fold, .folded > .fold',
        ))
          fold.click();
        for (const part of document.querySelectorAll('details')) part.open = true;
      });
      await settle(page);
      expect(await seriousOn(page)).toEqual([]);
      await page.close();
    });
  }
}

it('names every piece of the cabinet, leads through the page by Tab, and moves nothing by itself', async () => {
  const { page } = await open({ viewport: { width: 1440, height: 900 }, reducedMotion: 'reduce' });
  const pieces = page.locator('#cabinet .unit, #cabinet .bar');
  const names = await pieces.evaluateAll((all) => all.map((piece) => piece.getAttribute('aria-label') ?? ''));
  expect(names.length).toBeGreaterThan(60);
  expect(new Set(names).size).toBe(names.length);
  expect(names).toContain('S1, rectifier shelf on F1');
  const order: string[] = [];
  for (let k = 0; k < 60; k += 1) {
    await page.keyboard.press('Tab');
    const part = await page.evaluate(() => document.activeElement?.closest('[id]')?.id ?? '');
    if (order.at(-1) !== part) order.push(part);
  }
  const reached = ['theme', 'verdict', 'ruler', 'panel-bus', 'panel-carriers', 'panel-ac', 'findings'];
  const places = reached.map((part) =>
    order.findIndex((id) => id === part || (part === 'panel-bus' && id === 'node-picker')),
  );
  expect(
    places.every((place) => place >= 0),
    order.join(' '),
  ).toBe(true);
  expect([...places].sort((a, b) => a - b)).toEqual(places);
  const moving = await page.evaluate(() => document.getAnimations().length);
  expect(moving).toBe(0);
  await page.close();
});
