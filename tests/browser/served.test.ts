/** The page served over HTTP on loopback, as from any file server: it draws, and asks for nothing but itself. */

import { mkdtempSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readBundleFiles } from '../../src/bundle/read.ts';
import { writeBundle } from '../../src/bundle/write.ts';
import { makePage } from '../../src/cli/pages/page.ts';
import { syntheticRun } from '../fixtures/run.ts';
import { launch } from './browser.ts';

let browser: Browser;
let server: Server;
const asked: string[] = [];

beforeAll(async () => {
  const root = mkdtempSync(join(tmpdir(), 'served-'));
  writeBundle(join(root, 'run'), syntheticRun(6), { force: false });
  const page = makePage(readBundleFiles(join(root, 'run')));
  rmSync(root, { recursive: true });
  server = createServer((request, response) => {
    asked.push(request.url!);
    response.setHeader('Content-Type', 'text/html; charset=utf-8').end(page);
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  browser = await launch();
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

it.each([
  [1440, 900, 'light'],
  [1440, 900, 'dark'],
  [390, 844, 'light'],
  [390, 844, 'dark'],
] as const)(
  'draws every panel at %d by %d in %s, and asks for nothing',
  async (width, height, colorScheme) => {
    const page = await browser.newPage({ viewport: { width, height }, colorScheme });
    const complaints: string[] = [];
    page.on('console', (message) => {
      if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
    });
    page.on('pageerror', ({ message }) => complaints.push(message));
    asked.length = 0;
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/page.html`);
    await page.waitForSelector('html[data-ready="true"]', { timeout: 30_000 });
    await page.evaluate(() => {
      for (const folded of document.querySelectorAll('details')) folded.open = true;
      for (const folded of document.querySelectorAll<HTMLElement>('.folded button.fold')) folded.click();
    });
    const canvases = page.locator('.panel .plot canvas');
    for (let k = 0; k < (await canvases.count()); k += 1) {
      await canvases.nth(k).scrollIntoViewIfNeeded();
      await page.waitForFunction(
        (index) => {
          const canvas = document.querySelectorAll<HTMLCanvasElement>('.panel .plot canvas')[index]!;
          if (canvas.width === 0) return false;
          const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
          const seen = new Set<number>();
          for (let i = 0; i < data.length; i += 4 * 11)
            seen.add((data[i]! << 16) | (data[i + 1]! << 8) | data[i + 2]!);
          return seen.size > 3;
        },
        k,
        { timeout: 10_000 },
      );
    }
    expect(await canvases.count()).toBeGreaterThan(5);
    expect([complaints, asked]).toEqual([[], ['/page.html']]);
    await page.close();
  },
);
