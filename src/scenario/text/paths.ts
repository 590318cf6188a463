/** Paths of files inside files: a name in a file is relative to that file's own folder. */

/** `../models/a.yaml` named in `scenarios/b.yaml` is `models/a.yaml`. */
export function besideFile(file: string, name: string): string {
  if (name.startsWith('/')) return name;
  const folder = file.split('/').slice(0, -1);
  const parts: string[] = [];
  for (const part of [...folder, ...name.split('/')]) {
    if (part === '.' || (part === '' && parts.length > 0)) continue;
    if (part === '..' && parts.length > 0 && parts.at(-1) !== '..' && parts.at(-1) !== '') parts.pop();
    else parts.push(part);
  }
  return parts.join('/');
}

/** The file's name without folder and ending. */
export function stemOf(file: string): string {
  return (file.split('/').at(-1) ?? file).replace(/\.ya?ml$/, '');
}

/** Whether a change of this path names the model of a unit: `trays.T6.model`. */
export function isUnitModel(path: string): boolean {
  return /^[a-z]+\.[\w-]+\.model$/.test(path);
}
