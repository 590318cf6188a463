/** The pages lead to each other, and to files, headings and scripts that exist. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fragments, links, pages, textOf } from './read-pages.ts';

describe('pages', () => {
  it('README.md is read in one sitting', () => {
    expect(textOf('README.md').split(/\s+/).length).toBeLessThanOrEqual(1400);
  });

  it('are all reached from README.md', () => {
    const reached = new Set<string>();
    const queue = ['README.md'];
    for (let page = queue.pop(); page !== undefined; page = queue.pop()) {
      if (reached.has(page)) continue;
      reached.add(page);
      const near = links(textOf(page)).map((to) => normalize(join(dirname(page!), to.split('#')[0]!)));
      queue.push(...near.filter((to) => pages.includes(to)));
    }
    expect(pages.filter((page) => !reached.has(page))).toEqual([]);
  });

  it.each(pages)('links of %s lead to files and headings that exist', (page) => {
    const broken = links(textOf(page)).filter((to) => {
      if (/^https?:/.test(to)) return false;
      const [file = '', fragment] = to.split('#');
      const target = file === '' ? page : join(dirname(page), file);
      return !existsSync(target) || (fragment !== undefined && !fragments(textOf(target)).includes(fragment));
    });
    expect(broken).toEqual([]);
  });

  it.each(pages)('files that %s names in backticks exist', (page) => {
    const named = [...textOf(page).matchAll(/`((?:src|tests|models|scenarios|scripts|web)\/[\w./-]*\w)`/g)];
    expect(named.map((m) => m[1]!).filter((file) => !existsSync(file))).toEqual([]);
  });

  it('npm scripts that they name exist', () => {
    const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as {
      scripts: Record<string, string>;
    };
    const named = pages.flatMap((page) =>
      [...textOf(page).matchAll(/npm run (?:-s )?([\w:]+)/g)].map((m) => m[1]!),
    );
    expect(named.length).toBeGreaterThan(20);
    expect(named.filter((name) => scripts[name] === undefined)).toEqual([]);
  });
});
