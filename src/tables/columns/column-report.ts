/** What columns are asked for, and how what is unclear is said. */

export type ColumnReport = (found: string, expected: string, mend: string) => void;

/**
 * Place of the column that an option asks for by name, or by number from 1 where no column has that name; −1 after it
 * was reported. A name that stands twice is no answer.
 */
export function findColumn(
  names: readonly string[],
  wanted: string,
  option: string,
  report: ColumnReport,
): number {
  const name = wanted.trim();
  const index = names.indexOf(name);
  if (index >= 0 && !isRepeated(names, index)) return index;
  if (index >= 0) {
    const places = names.flatMap((other, i) => (other === name ? [i] : []));
    report(
      `${places.length} columns named ${name}`,
      'one column',
      `give ${places.map((i) => `${option} ${i + 1}`).join(' or ')}, by its number`,
    );
    return -1;
  }
  const number = /^\d{1,4}$/.test(name) ? Number(name) : 0;
  if (number >= 1 && number <= names.length) return number - 1;
  report(
    `no column named ${wanted}`,
    `one of ${names.join(', ')}`,
    `give ${option} with one of these names, or with a number from 1 to ${names.length}`,
  );
  return -1;
}

/** Whether another column has the same name. */
export function isRepeated(names: readonly string[], index: number): boolean {
  return names.indexOf(names[index]!) !== names.lastIndexOf(names[index]!);
}

/** What a column is called: its name, and its number where the name does not tell it from the others. */
export function columnLabel(names: readonly string[], index: number): string {
  const name = names[index]!;
  if (name === '') return `column ${index + 1}`;
  return isRepeated(names, index) ? `${name} (column ${index + 1})` : name;
}

/** How an option asks for a column on a command line: by its name, or by its number where the name does not do. */
export function asOption(names: readonly string[], index: number): string {
  const name = names[index]!;
  return name === '' || isRepeated(names, index) ? String(index + 1) : quotedName(name);
}

/** A name as it is written on a command line. */
export function quotedName(name: string): string {
  return /^[\w.:/-]+$/.test(name) ? name : `"${name}"`;
}
