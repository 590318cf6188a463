/** Makes the page of a kept run: one HTML file that holds the whole bundle and opens offline. */
import { manifestName } from '../../bundle/format.ts';
import { strictJson } from '../../bundle/json.ts';
import type { BundleFiles } from '../../bundle/read.ts';
import { pageScript, pageStyle } from './bundled.ts';
import { fillShell } from './shell.ts';

export async function makePage({ manifest, files }: BundleFiles): Promise<string> {
  return fillShell('page.html', {
    style: await pageStyle('style.css'),
    script: await pageScript('main.ts'),
    carried: [[manifestName, new TextEncoder().encode(strictJson(manifestName, manifest))], ...files],
  });
}
