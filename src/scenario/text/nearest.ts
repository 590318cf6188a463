/** Longer than any word that is allowed anywhere: no mistyped one. */
const longestWord = 80;

/** The allowed words nearest to a mistyped one, best first; by how few letters must change. */
export function nearestWords(word: string, allowed: readonly string[], most = 3): string[] {
  if (word.length > longestWord) return [];
  const ranked = allowed
    .map((candidate) => ({ candidate, distance: editDistance(word.toLowerCase(), candidate.toLowerCase()) }))
    .filter(({ candidate, distance }) => distance <= Math.max(2, Math.floor(candidate.length / 2.5)))
    .sort((a, b) => a.distance - b.distance || a.candidate.localeCompare(b.candidate, 'en'));
  return ranked.slice(0, most).map(({ candidate }) => candidate);
}

/** The way out of a mistyped word: the nearest of the allowed ones, or `otherwise` where none is near. */
export function nearestOr(otherwise: string, word: string, allowed: readonly string[]): string {
  const near = nearestWords(word, allowed);
  return near.length === 0 ? otherwise : `nearest: ${near.join(', ')}`;
}

/** Fewest insertions, deletions, replacements and swaps of neighbours that turn a into b. */
export function editDistance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min(rows[i - 1]![j]! + 1, row[j - 1]! + 1, rows[i - 1]![j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        best = Math.min(best, rows[i - 2]![j - 2]! + 1);
      }
      row.push(best);
    }
    rows.push(row);
  }
  return rows[a.length]![b.length]!;
}

/** `a, b or c`. */
export function listed(words: readonly string[], last = 'or'): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}
