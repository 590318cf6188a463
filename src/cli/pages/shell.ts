/**
 * Fills the shell of a page: one file with its script, its style and what it carries, which opens offline.
 *
 * No text of a user stands in the file: reports, manifests and inputs are carried gzipped and in base64, whose letters make
 * no markup, and the page's script puts them in place as text. A policy names script and style by their sums, so that nothing
 * else runs, paints or reaches out, whatever a title says.
 */
import { createHash } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import { sha256 } from '../../bundle/sum.ts';
import { pagePart } from './page-part.ts';

export interface Filling {
  /** What stands in the middle of the page, a file of `web/`. */
  readonly main: string;
  /** The command that makes it. */
  readonly maker: 'view' | 'compare';
  /** Where its time begins, which a reader by keys may want first. */
  readonly traces?: string;
  /** What nobody may take from it. */
  readonly cautions: readonly string[];
  /** What was done to see that what it carries is what was kept. */
  readonly checked: string;
  readonly script: string;
  readonly style: string;
  /** What the page carries, by the name under which its script asks for it. */
  readonly carried: Iterable<readonly [name: string, bytes: Uint8Array]>;
}

/** The text of a page. */
export function fillShell({
  main,
  maker,
  traces,
  cautions,
  checked,
  script,
  style,
  carried,
}: Filling): string {
  const parts: Readonly<Record<string, string>> = {
    POLICY: policyOf(script, style),
    STYLE: verbatim(style, 'style'),
    SCRIPT: verbatim(script, 'script'),
    MAIN: pagePart(main).trimEnd(),
    MAKER: maker,
    SKIP: traces === undefined ? '' : `<a class="skip" href="#${traces}">Skip to the traces</a>\n`,
    CAUTIONS: [...cautions, checked].map((text) => `  <p>${text}</p>`).join('\n'),
    CARRIED: [...carried].map(([name, bytes]) => carriedElement(name, bytes)).join('\n'),
  };
  return pagePart('shell.html').replace(/\/\*([A-Z]+)\*\//g, (mark, name: string) => parts[name] ?? mark);
}

/**
 * The script and the style as they stand, and a worker that the page makes of text it carries (which may compile the kernel
 * as WebAssembly); of pictures those that the page holds or draws itself. All else is refused: connections, frames, forms.
 */
function policyOf(script: string, style: string): string {
  const sum = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
  return [
    "default-src 'none'",
    `script-src ${sum(script)} 'wasm-unsafe-eval'`,
    `style-src ${sum(style)}`,
    'worker-src blob:',
    'img-src data: blob:',
    "connect-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

/** Own code as an element holds it. Throws RangeError where HTML would read it otherwise than it is written. */
function verbatim(text: string, element: 'script' | 'style'): string {
  const odd = new RegExp(`</${element}|<!--|\\r|\\0`, 'i').exec(text);
  if (odd === null) return text;
  throw new RangeError(`the page's ${element} holds ${JSON.stringify(odd[0])} at ${odd.index}`);
}

/** A name is one that a manifest may hold or that the project gave; it is no text of a user either. */
function carriedElement(name: string, bytes: Uint8Array): string {
  if (!/^[\w./-]+$/.test(name)) throw new RangeError(`${name} cannot name what a page carries`);
  const text = gzipSync(bytes, { level: 9 }).toString('base64');
  return `<script type="application/gzip" id="file-${name}" data-sha256="${sha256(bytes)}">${text}</script>`;
}
