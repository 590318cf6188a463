/** The worst margins in Markdown, and in one sentence. */
import { digits } from '../../../base/digits.ts';
import type { OverFound } from './found.ts';
import { askedWords, dampingLines, overLists, unstableLines, worstHeads, worstRows } from './over-words.ts';

/** `least gain margin of voltage loops 2.36 dB at 240 kW, ac-loss all`. */
export function worstSentence(found: OverFound): string {
  const unstable = unstableLines(found).length;
  if (unstable > 0) return `UNSTABLE at ${unstable} of ${found.asked.length} points asked`;
  const [first] = found.worst.filter(({ what, value }) => what === 'gain_margin_dB' && value !== null);
  if (first === undefined) return `no gain margin within reach at ${found.asked.length} points asked`;
  const at = found.points.find(({ name }) => name === first.point);
  return `worst of ${found.asked.length} points: gain of the ${first.of} may rise by ${first.value!.toFixed(2)} dB at ${at?.words}`;
}

export function overMarkdown(title: string, found: OverFound): string {
  const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  const list = (head: string, lines: readonly string[]): string[] =>
    lines.length === 0 ? [] : ['', `## ${head}`, '', ...lines.map((line) => `- ${line}`)];
  return [
    `# ${title}: worst margins`,
    '',
    `${worstSentence(found)}.`,
    '',
    `${askedWords(found)}. What was not asked may be worse: a search finds, it proves nothing.`,
    '',
    'In brackets the margin as built, as stated, at the highest load.',
    '',
    row(worstHeads),
    row(worstHeads.map(() => '---')),
    ...worstRows(found).map(row),
    '',
    ...dampingLines(found).map((line) => `${line}  `),
    ...overLists(found).flatMap(({ head, lines }) => list(head, lines)),
    ...list(
      'What moves the margins most',
      found.slopes
        .slice(0, 12)
        .map(
          ({ path, of, what, change_ratio, at }) =>
            `${path} at its high end: ${what} of ${of} by ${change_ratio < 0 ? '−' : '+'}${digits(Math.abs(100 * change_ratio), 2)} % (${at})`,
        ),
    ),
    '',
    '## The points by themselves',
    ...found.points.flatMap(({ name, words, clamped, command, changes }) => [
      '',
      `**${name}** ${words}; ${changes.length} values differ${clamped.length === 0 ? '' : `; at a clamp: ${clamped.join(', ')}`}`,
      '',
      '```sh',
      command,
      '```',
    ]),
    '',
  ].join('\n');
}
