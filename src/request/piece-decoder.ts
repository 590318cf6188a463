import { BadInput } from '../base/problem.ts';

/** Bytes of delimited text, piece by piece, as text: UTF-8, or UTF-16 with a byte order mark; else BadInput. */
export class PieceDecoder {
  readonly #name: string;
  #decoder: TextDecoder | null = null;

  /** `name`: what the text is called in problems. */
  constructor(name: string) {
    this.#name = name;
  }

  push(bytes: Uint8Array): string {
    this.#decoder ??= decoderFor(bytes);
    return this.#decoded(this.#decoder, bytes, true);
  }

  /** What was left of a character that was cut in two, and no more bytes come: a problem. */
  end(): string {
    return this.#decoder === null ? '' : this.#decoded(this.#decoder, new Uint8Array(), false);
  }

  #decoded(decoder: TextDecoder, bytes: Uint8Array, more: boolean): string {
    try {
      return decoder.decode(bytes, { stream: more });
    } catch {
      throw new BadInput([
        {
          severity: 'error',
          file: this.#name,
          found: 'bytes that are not UTF-8: a binary file, or another encoding',
          expected: 'delimited text in UTF-8',
          mend: 'export the recording as CSV in UTF-8',
        },
      ]);
    }
  }
}

function decoderFor(first: Uint8Array): TextDecoder {
  const [a, b] = first;
  const encoding = a === 0xff && b === 0xfe ? 'utf-16le' : a === 0xfe && b === 0xff ? 'utf-16be' : 'utf-8';
  return new TextDecoder(encoding, { fatal: true });
}
