import type { Files } from '../scenario/text/desk.ts';

/** Where the text of inputs comes from: a disk, or a kept bundle. */
export interface InputSource {
  /** A whole text, null where it is none of a scenario or model, and the SHA-256 of its bytes. */
  text(path: string): ReturnType<Files>;

  /**
   * Hands a long text on in pieces, each with the part of it done by then (null where its size is not known);
   * gives the SHA-256 of its bytes. UTF-8, or UTF-16 with a byte order mark, or Parquet as the text that says the same;
   * else BadInput.
   */
  pieces(path: string, take: (text: string, fraction: number | null) => void): string;
}

/** What an input is called in problems and reports: its path, or `stdin`. */
export function inputName(path: string): string {
  return path === '-' ? 'stdin' : path;
}
