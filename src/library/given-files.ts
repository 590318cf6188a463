/** Files that a caller hands over, before a source of all others. */
import { KeptSource } from '../bundle/kept-source.ts';
import type { ReadInput } from '../bundle/pack-input.ts';
import { sha256 } from '../bundle/sum.ts';
import type { InputSource } from '../request/input-source.ts';
import type { Files } from './ask.ts';

export class GivenFiles implements InputSource {
  readonly #given: ReadonlyMap<string, ReadInput>;
  readonly #source: KeptSource;
  readonly #beneath: InputSource | null;

  /** `beneath`: where all other files come from; null: there are no others, and asking for one throws BadInput. */
  constructor(files: Files, beneath: InputSource | null) {
    const inputs = Object.entries(files).map(([path, content]): ReadInput => {
      const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
      return { path, bytes, sha256: sha256(bytes) };
    });
    this.#given = new Map(inputs.map((input) => [input.path, input]));
    this.#source = new KeptSource(inputs);
    this.#beneath = beneath;
  }

  /** Those that were asked for, in that order. */
  get read(): readonly ReadInput[] {
    return this.#source.asked.map((path) => this.#given.get(path)!);
  }

  text(path: string): ReturnType<InputSource['text']> {
    return this.#sourceOf(path).text(path);
  }

  pieces(path: string, take: (text: string, fraction: number | null) => void): string {
    return this.#sourceOf(path).pieces(path, take);
  }

  #sourceOf(path: string): InputSource {
    return this.#given.has(path) ? this.#source : (this.#beneath ?? this.#source);
  }
}
