/** The sources as the TypeScript compiler reads them, for what is translated from them: the kernel, the laws in C. */
import ts from 'typescript';

const options: ts.CompilerOptions = {
  target: ts.ScriptTarget.ES2022,
  module: ts.ModuleKind.NodeNext,
  allowImportingTsExtensions: true,
  noEmit: true,
  strict: true,
  lib: ['lib.es2023.d.ts'],
  types: [],
};

/** Modules of several entries are read at once. */
export function programOf(...entries: readonly string[]): ts.Program {
  return ts.createProgram([...entries], options);
}
