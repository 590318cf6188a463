/** Makes the page: one HTML file that holds the script, the style and the whole bundle, and opens offline. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import type { BundleFiles } from '../../bundle/read.ts';
import { home } from '../../home.ts';

const web = join(home, 'web/');

/** The page's text. The script is bundled here, as one classic script: module scripts do not load from disk. */
export async function makePage({ manifest, files }: BundleFiles): Promise<string> {
  const parts: Readonly<Record<string, string>> = {
    STYLE: await pageStyle(),
    MANIFEST: inScript(JSON.stringify(manifest)),
    FILES: [...files].map(([name, bytes]) => carried(name, bytes)).join('\n'),
    SCRIPT: inScript(await pageScript()),
  };
  const shell = readFileSync(`${web}page.html`, 'utf8');
  return shell.replace(/\/\*([A-Z]+)\*\//g, (mark, name: string) => parts[name] ?? mark);
}

/** The page's style, its parts in one text. */
export async function pageStyle(entry = 'style.css'): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [`${web}${entry}`],
    bundle: true,
    write: false,
    logLevel: 'silent',
  });
  return outputFiles[0]!.text;
}

/** A script of the page, bundled as one classic script. */
export async function pageScript(entry = 'main.ts'): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [`${web}${entry}`],
    bundle: true,
    write: false,
    format: 'iife',
    minify: true,
    target: 'es2022',
    legalComments: 'inline',
    logLevel: 'silent',
  });
  return outputFiles[0]!.text;
}

function carried(name: string, bytes: Uint8Array): string {
  const text = gzipSync(bytes, { level: 6 }).toString('base64');
  return `<script type="application/gzip" id="file-${name}">${text}</script>`;
}

/** Text that may stand inside a script element: nothing in it closes the element or opens a comment. */
export function inScript(text: string): string {
  return text.replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--');
}
