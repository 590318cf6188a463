/** What columns are asked for, and how what is unclear is said. */

export type ColumnReport = (found: string, expected: string, mend: string) => void;

/** Place of the column named by an option, or −1 after it was reported. */
export function findColumn(
  names: readonly string[],
  wanted: string,
  option: string,
  report: ColumnReport,
): number {
  const index = names.indexOf(wanted.trim());
  if (index < 0) {
    report(
      `no column named ${wanted}`,
      `one of ${names.join(', ')}`,
      `give ${option} with one of these names`,
    );
  }
  return index;
}

/** A name as it is written on a command line. */
export function quotedName(name: string): string {
  return /^[\w.:/-]+$/.test(name) ? name : `"${name}"`;
}
