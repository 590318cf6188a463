/** The system's Chromium, found or told exactly how to get. */
import { existsSync } from 'node:fs';
import { buffer } from 'node:stream/consumers';
import { type Browser, type BrowserServer, chromium, type Download } from 'playwright-core';

const places = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

/** Path of a Chromium; throws with what to install where there is none. */
export function chromiumPath(): string {
  const asked = process.env['CHROMIUM'];
  if (asked !== undefined && asked !== '') {
    if (existsSync(asked)) return asked;
    throw new Error(`CHROMIUM names ${asked}, where there is no file. Unset it or name a Chromium.`);
  }
  const found = places.find((path) => existsSync(path));
  if (found !== undefined) return found;
  throw new Error(
    `The browser tests need Chromium and found none at ${places.join(', ')}. ` +
      'On Debian as root run scripts/get-tools.sh (apt-get install -y chromium); ' +
      'elsewhere install Chromium and set CHROMIUM to its path.',
  );
}

/** One Chromium for all files of a worker: to start it takes as long as a page. It ends with the worker. */
let standing: Promise<BrowserServer> | null = null;

/** A browser of one's own, with nothing in it of anybody else; closing it closes its pages. */
export async function launch(): Promise<Browser> {
  standing ??= chromium.launchServer({
    executablePath: chromiumPath(),
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  return chromium.connect((await standing).wsEndpoint());
}

/** What a page has handed over as a file: the browser is another process's, so it comes as a stream. */
export async function bytesOf(download: Download): Promise<Buffer> {
  return buffer(await download.createReadStream());
}
