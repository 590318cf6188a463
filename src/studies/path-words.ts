/** The path of a parameter as people read it: `firmware.share.time_constant` is `share time constant`. */
export function pathWords(path: string): string {
  return path
    .replace(/^firmware\./, '')
    .replaceAll(/[._]/g, ' ')
    .trim();
}
