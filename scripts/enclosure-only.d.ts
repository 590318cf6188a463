/**
 * The one exception to "no Node between reading and showing": src/firmware/user/enclosure.ts, which keeps a user's
 * module apart. What it takes from Node is written out here, for the compile that knows nothing of Node.
 */
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
