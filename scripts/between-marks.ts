/** A table that a script writes into a document, between a mark that opens it and one that closes it. */

const opens = (name: string): string => `<!-- ${name} -->`;
const closes = (name: string): string => `<!-- end of ${name} -->`;

function ends(text: string, name: string): readonly [from: number, to: number] {
  const [from, to] = [text.indexOf(opens(name)), text.indexOf(closes(name))];
  if (from < 0 || to < from) throw new RangeError(`no marks of ${name}`);
  return [from + opens(name).length, to];
}

/** What stands between the marks of a name. */
export function betweenMarks(text: string, name: string): string {
  return text.slice(...ends(text, name)).trim();
}

/** The text with this table between the marks of a name. */
export function fill(text: string, name: string, table: string): string {
  const [from, to] = ends(text, name);
  return `${text.slice(0, from)}\n\n${table}\n\n${text.slice(to)}`;
}
