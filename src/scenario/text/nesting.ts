/** Deeper than any value of a scenario, model or study; a parser that follows text without end runs out of its stack. */
export const deepestNesting = 64;

/** Whether brackets of a text open one within the other deeper than `deepestNesting`; quotes are not looked at. */
export function nestsTooDeep(text: string): boolean {
  let depth = 0;
  for (let k = 0; k < text.length; k++) {
    const char = text[k];
    if (char === '[' || char === '{') depth++;
    else if (char === ']' || char === '}') depth = Math.max(0, depth - 1);
    if (depth > deepestNesting) return true;
  }
  return false;
}
