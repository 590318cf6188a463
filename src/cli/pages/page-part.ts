/** What runs and paints in a page, and what stands in it, as `npm run build` has made it of `web/`. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { home } from '../../home.ts';

/** A part of a page by its path in `web/`: a script is one classic script (module scripts do not load from disk), a style one text. */
export function pagePart(name: string): string {
  return readFileSync(join(home, 'dist', 'web', name), 'utf8');
}
