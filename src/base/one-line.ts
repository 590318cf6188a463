/** A text of somebody else's on one line and without controls: a terminal or a reader would follow them. */
export function oneLine(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\u2028\u2029]+/gu, ' ');
}
