/**
 * Outputs that the documents show, held against what the commands print: a block of text below the mark
 * `<!-- printed by: COMMAND -->` shows lines of that command's output, in their order. `…` stands for anything, a line
 * of dots for lines left out.
 * `node --import tsx scripts/shown-outputs.ts [PAGE …]` runs the commands (studies take most of an hour).
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

export interface Shown {
  readonly command: string;
  readonly lines: readonly string[];
}

/** Tours: quick from end to end, a test runs their commands. */
export const tours = ['power-engineer', 'firmware-engineer', 'reviewer'].map(
  (name) => `scenarios/tours/${name}.md`,
);

/** Pages that show outputs. */
export const showing = ['README.md', 'scenarios/studies/README.md', 'src/analysis/judge/report.md', ...tours];

/** Every block of text of a page with the command that prints it; null where the page names none. */
export function shownOn(
  text: string,
): (Shown | { readonly command: null; readonly lines: readonly string[] })[] {
  const blocks = text.matchAll(/(?:<!-- printed by: (.+?) -->\n+)?```text\n([\s\S]*?)```/g);
  return [...blocks].map(([, command = null, block]) => ({ command, lines: block!.trimEnd().split('\n') }));
}

/** Columns are as wide as their longest cell, which may be in a line left out. */
function narrow(line: string): string {
  return line.trim().replaceAll(/\s+/g, ' ');
}

function isLike(shown: string, printed: string): boolean {
  const line = narrow(printed);
  let at = 0;
  for (const part of narrow(shown).split('…')) {
    const found = line.indexOf(part, at);
    if (found < 0) return false;
    at = found + part.length;
  }
  return true;
}

/** Lines of a block that the output does not have, each after the one before it. */
export function missing(lines: readonly string[], output: string): string[] {
  const printed = output.split('\n');
  let at = 0;
  return lines.filter((line) => {
    if (/^\s*\.*$/.test(line)) return false;
    const found = printed.findIndex((candidate, k) => k >= at && isLike(line, candidate));
    if (found >= 0) at = found + 1;
    return found < 0;
  });
}

if (import.meta.url === `file://${process.argv[1]}`) {
  const asked = process.argv.slice(2);
  for (const page of asked.length > 0 ? asked : showing) {
    for (const { command, lines } of shownOn(readFileSync(page, 'utf8'))) {
      if (command === null) continue;
      const { stdout, stderr } = spawnSync('bash', ['-c', command], { encoding: 'utf8', maxBuffer: 1e9 });
      const gone = missing(lines, `${stdout}\n${stderr}`);
      process.stdout.write(`${gone.length === 0 ? 'as shown' : 'STALE   '}  ${page}: ${command}\n`);
      for (const line of gone) process.stdout.write(`            ${line}\n`);
      if (gone.length > 0) process.exitCode = 1;
    }
  }
}
