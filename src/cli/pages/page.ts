/** Makes the page of a kept run: one HTML file that holds the whole bundle and the engine, and opens offline. */
import { manifestName } from '../../bundle/format.ts';
import { strictJson } from '../../bundle/json.ts';
import type { BundleFiles } from '../../bundle/read.ts';
import { shippedLimitsText } from '../disk/shipped-limits.ts';
import { pageScript, pageStyle } from './bundled.ts';
import { engineScript } from './engine-script.ts';
import { fillShell } from './shell.ts';

export async function makePage({ manifest, files }: BundleFiles): Promise<string> {
  const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
  return fillShell('page.html', {
    style: await pageStyle('style.css'),
    script: await pageScript('main.ts'),
    carried: [
      [manifestName, bytes(strictJson(manifestName, manifest))],
      ...files,
      // What the page needs to run it under changes.
      ['engine.js', bytes(await engineScript())],
      ['shipped-limits.json', bytes(JSON.stringify(shippedLimitsText()))],
    ],
  });
}
