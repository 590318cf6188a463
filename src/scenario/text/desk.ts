/** Opens the user's files: remembers what was read, with its sum, and what was wrong. */
import { BadInput, type Problem } from '../../base/problem.ts';
import type { InputFile } from '../scenario.ts';
import { type Branch, problemAt, readDocument } from './document.ts';
import type { Origin } from './origin.ts';
import { openBranch, type PackedBranch } from './packed-tree.ts';

/**
 * Text of a file, null where its bytes are none of a scenario or model, for the reason in `unfit`, and its SHA-256 in
 * hexadecimal; throws when the file cannot be read.
 */
export type Files = (path: string) => {
  readonly text: string | null;
  readonly unfit?: string | null;
  readonly sha256: string;
  /** The tree of that text, where one who read it before has kept it: nothing was wrong with it. */
  readonly tree?: PackedBranch | undefined;
};

type TextRead = ReturnType<Files> & { readonly text: string };

export class Desk {
  readonly problems: Problem[] = [];
  readonly inputs: InputFile[] = [];
  readonly #files: Files;
  readonly #documents: Map<string, Branch | null> = new Map();
  readonly #trees: Map<string, Branch>;
  readonly #texts: Map<string, string> = new Map();

  /** `trees`: documents read before, by path and sum, for who reads the same files many times. */
  constructor(files: Files, trees: Map<string, Branch> = new Map()) {
    this.#files = files;
    this.#trees = trees;
  }

  /** The tree of a file, or null when it cannot be had; problems are noted once. */
  document(file: string, named: Origin | null, path: string): Branch | null {
    const known = this.#documents.get(file);
    if (known !== undefined) return known;
    const read = this.read(file, named, path);
    const root = read === null ? null : this.tree(file, read);
    this.#documents.set(file, root);
    return root;
  }

  private tree(file: string, { text, sha256, tree }: TextRead): Branch | null {
    const key = `${file} ${sha256}`;
    const known = this.#trees.get(key);
    if (known !== undefined) return known;
    const before = this.problems.length;
    const root = tree === undefined ? readDocument(file, text, this.problems) : openBranch(file, tree);
    // What is wrong must be said each time, so only a tree without problems is kept.
    if (root !== null && this.problems.length === before) this.#trees.set(key, root);
    return root;
  }

  /** The text of a file, or null. `named`: where the user names it. */
  text(file: string, named: Origin | null, path: string): string | null {
    return this.read(file, named, path)?.text ?? null;
  }

  private read(file: string, named: Origin | null, path: string): TextRead | null {
    const read = this.noted(file, named, path);
    if (read === null) return null;
    const { text } = read;
    if (text !== null) {
      this.#texts.set(file, text);
      return { ...read, text };
    }
    this.problems.push(
      problemAt(
        named ?? { file, line: 0, column: 0 },
        path,
        `${file}, ${read.unfit ?? 'no text'}`,
        'a text in UTF-8 of at most 1 MB: recordings alone are longer',
        'name the file that was meant, or save it as UTF-8',
      ),
    );
    return null;
  }

  /** What a file said that was read as a text; null where it was not. */
  textOf(file: string): string | null {
    return this.#texts.get(file) ?? null;
  }

  /** Notes a file among the inputs, whatever it holds. */
  noted(file: string, named: Origin | null, path: string): ReturnType<Files> | null {
    try {
      const read = this.#files(file);
      const { sha256 } = read;
      if (!this.inputs.some((input) => input.path === file)) this.inputs.push({ path: file, sha256 });
      return read;
    } catch (error) {
      if (named === null && error instanceof BadInput) {
        this.problems.push(...error.problems);
        return null;
      }
      const why = error instanceof BadInput ? (error.problems[0]?.found ?? error.message) : undefined;
      this.problems.push(
        problemAt(
          named,
          path,
          why ?? `no file ${file}`,
          'a file that can be read',
          // An option stands in no file, and has no line.
          `names are relative to ${named?.line === 0 ? 'where the command was given' : 'the file that contains them'}; correct the name or add the file`,
        ),
      );
      return null;
    }
  }
}
