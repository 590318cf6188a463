/** What scenarios, models, studies and modules are: a text in UTF-8 that is not long. */

/** None is longer [bytes]; a recording is, and is read in pieces. */
export const longestText: number = 1 << 20;

export type ShortText =
  | { readonly text: string; readonly unfit: null }
  /** `unfit`: why the bytes are none. */
  | { readonly text: null; readonly unfit: string };

export const tooLong: ShortText = { text: null, unfit: 'longer than 1 MB' };

export function shortText(bytes: Uint8Array): ShortText {
  if (bytes.length > longestText) return tooLong;
  const text = decoded(bytes);
  if (text === null) return { text, unfit: 'bytes that are no text in UTF-8' };
  return text.includes('\0') ? { text: null, unfit: 'zero bytes, so no text' } : { text, unfit: null };
}

function decoded(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}
