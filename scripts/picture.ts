/**
 * A picture of a page: `picture.ts PAGE.html FILE.png [WIDTHxHEIGHT] [light|dark]`. README's is made by
 * `npm run -s demo && node --import tsx scripts/picture.ts out/recorded-training/page.html web/pictures/recorded-training.png`.
 */
import { resolve } from 'node:path';
import { launch } from '../tests/browser/browser.ts';

/** Below 1 the file is small and the text still readable. */
const scale = 0.65;

const [page, picture, size = '1400x1590', colours = 'light'] = process.argv.slice(2);
if (page === undefined || picture === undefined) {
  process.stderr.write('usage: picture.ts PAGE.html FILE.png [WIDTHxHEIGHT] [light|dark]\n');
  process.exit(2);
}
const [width, height] = size.split('x').map(Number) as [number, number];
const browser = await launch();
try {
  const tab = await browser.newPage({
    viewport: { width, height },
    deviceScaleFactor: scale,
    colorScheme: colours === 'dark' ? 'dark' : 'light',
  });
  await tab.goto(`file://${resolve(page)}`);
  await tab.waitForTimeout(1500);
  await tab.screenshot({ path: picture });
} finally {
  await browser.close();
}
