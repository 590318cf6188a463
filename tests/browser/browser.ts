/** The system's Chromium, found or told exactly how to get. */
import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

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

export function launch(): Promise<Browser> {
  return chromium.launch({
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
}
