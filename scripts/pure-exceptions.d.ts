/**
 * The exceptions to "no Node and no DOM between reading and showing", written out for the compile that knows neither.
 * src/firmware/user/enclosure.ts keeps a user's module apart by Node; bytes become text by what both Node and browsers have.
 */
interface TextDecoder {
  decode(bytes: Uint8Array, options: { readonly stream: boolean }): string;
}

declare module 'node:vm' {
  export function createContext(of: object, options: { readonly microtaskMode: 'afterEvaluate' }): object;
  export class Script {
    constructor(code: string, options?: { readonly filename?: string; readonly columnOffset?: number });
    runInContext(context: object, options?: { readonly timeout?: number }): unknown;
  }
}

declare module 'node:module' {
  export class SourceMap {
    constructor(payload: unknown);
    findEntry(line: number, column: number): object | { originalLine: number; originalColumn: number };
  }
}
