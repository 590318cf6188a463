import type { Delimiter } from './delimiter.ts';

/**
 * A line as a parser of delimited text takes it: runs of blanks between cells become one tab where blanks part
 * them, and blanks before an opening quote go (`time_s, "power_W"` is common, and its quotes are quotes).
 */
export function parsable(line: string, delimiter: Delimiter): string {
  const quoted = line.includes('"');
  if (delimiter === 'blanks') return quoted ? outsideQuotes(line.trim(), /\s+/g, '\t') : tabbed(line);
  return quoted ? unblanked(line, delimiter) : line;
}

function tabbed(line: string): string {
  return line.trim().replace(/\s+/g, '\t');
}

/** Quoted stretches are kept as they are: `"a ""b"" c"` is two stretches that touch. */
function outsideQuotes(line: string, what: RegExp, by: string): string {
  return line
    .split('"')
    .map((part, i) => (i % 2 === 0 ? part.replace(what, by) : part))
    .join('"');
}

function unblanked(line: string, delimiter: Delimiter): string {
  const parts = line.split('"');
  return parts
    .map((part, i) => {
      const opens = i % 2 === 0 && i < parts.length - 1;
      const cut = part.lastIndexOf(delimiter) + 1;
      const begins = cut > 0 || i === 0;
      return opens && begins && part.slice(cut).trim() === '' ? part.slice(0, cut) : part;
    })
    .join('"');
}
