/**
 * The exceptions to "no Node and no DOM between reading and showing", written out for the compile that knows neither.
 * src/firmware/user/fault-place.ts reads a map by Node; bytes become text by what both Node and browsers have.
 */
interface TextDecoder {
  decode(bytes: Uint8Array, options: { readonly stream: boolean }): string;
}

declare module 'node:module' {
  export class SourceMap {
    constructor(payload: unknown);
    findEntry(line: number, column: number): object | { originalLine: number; originalColumn: number };
  }
}
