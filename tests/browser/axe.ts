/** What axe-core finds of weight on a page: all rules of WCAG 2 A and AA and good practice. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { RunOptions } from 'axe-core';
import type { Page } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export interface Found {
  readonly id: string;
  readonly impact: string | null | undefined;
  readonly targets: readonly string[];
}

const options: RunOptions = { resultTypes: ['violations'] };
const inColours: RunOptions = { ...options, runOnly: { type: 'rule', values: ['color-contrast'] } };

/**
 * Serious and critical findings, each with the first places where it was met. `colours`: of a page that was looked at whole
 * and has only changed its theme.
 */
export async function seriousOn(page: Page, what: 'whole' | 'colours' = 'whole'): Promise<readonly Found[]> {
  await page.evaluate(axe);
  const all = await page.evaluate(
    async (rules): Promise<Found[]> => {
      const { axe: checker } = globalThis as unknown as { axe: typeof import('axe-core') };
      const { violations } = await checker.run(document, rules);
      return violations.map(({ id, impact, nodes }) => ({
        id,
        impact,
        targets: nodes.slice(0, 4).map((node) => `${String(node.target[0])} ${node.any[0]?.message ?? ''}`),
      }));
    },
    what === 'whole' ? options : inColours,
  );
  return all.filter(({ impact }) => impact === 'serious' || impact === 'critical');
}
