/**
 * Lines of code of each room of `src`, comments and blank lines left out:
 *
 *   node --import tsx scripts/lines-of-code.ts [CHECKOUT]
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';

/** Lines on which something stands that is no comment. */
function linesOf(text: string): number {
  const source = ts.createSourceFile('file.ts', text, ts.ScriptTarget.ESNext);
  const lines = new Set<number>();
  const mark = (node: ts.Node): void => {
    if (node.getChildCount(source) === 0 && node.getWidth(source) > 0) {
      const [first, last] = [node.getStart(source), node.end].map(
        (at) => source.getLineAndCharacterOfPosition(at).line,
      );
      for (let line = first!; line <= last!; line++) lines.add(line);
    }
    for (const child of node.getChildren(source)) if (!ts.isJSDoc(child)) mark(child);
  };
  mark(source);
  return lines.size;
}

const root = join(process.argv[2] ?? '.', 'src');
const rooms = new Map<string, { files: number; lines: number }>();
for (const name of readdirSync(root, { recursive: true, encoding: 'utf8' })) {
  if (!name.endsWith('.ts') || name.includes('/made/')) continue;
  const room = name.includes('/') ? `${name.split('/')[0]}/` : name;
  const sum = rooms.get(room) ?? { files: 0, lines: 0 };
  rooms.set(room, {
    files: sum.files + 1,
    lines: sum.lines + linesOf(readFileSync(join(root, name), 'utf8')),
  });
}
for (const [room, { files, lines }] of [...rooms].sort(([a], [b]) => (a < b ? -1 : 1)))
  console.log(`${room.padEnd(16)}${String(files).padStart(6)}${String(lines).padStart(8)}`);
const all = [...rooms.values()].reduce((a, b) => ({ files: a.files + b.files, lines: a.lines + b.lines }));
console.log(`${'all'.padEnd(16)}${String(all.files).padStart(6)}${String(all.lines).padStart(8)}`);
