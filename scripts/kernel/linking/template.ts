/**
 * A folded function as a WebAssembly module with gaps: whole but for the numbers that a cabinet's memory gives. Every gap has
 * as many bytes as its largest number takes, so filling one moves nothing. What fills them is `engine/fast/linking.ts`.
 */
import { beginning, listed, section, text, unsigned } from '../../../src/base/wasm-bytes.ts';
import type { Code, Gap, Target } from './code.ts';
import type { Folded } from './folder.ts';
import { op, signed, type Type } from './instructions.ts';
import type { Imported, Signature } from './module.ts';
import { isPlain, type Sum, type Symbols } from './symbols.ts';

/** A module and, in one list of whole numbers, its symbols, sums and gaps. */
export interface Template {
  readonly bytes: Uint8Array;
  readonly ledger: readonly number[];
}

/** Kinds of gaps, by their place in the ledger. */
const kinds: readonly Gap['kind'][] = ['number', 'offset', 'base'];

/** Bytes that a whole number may take. */
const widest = 5;

const functionType = 0x60;
const kind = { function: 0, memory: 2 } as const;

class Writer {
  readonly bytes: number[] = [];
  readonly gaps: { readonly at: number; readonly gap: Gap }[] = [];
  private readonly nests: Target[] = [];

  /** How many nests out a branch goes. */
  private out(target: Target): number[] {
    const at = this.nests.lastIndexOf(target);
    if (at < 0) throw new Error('a branch goes to a block that it is not in');
    return unsigned(this.nests.length - 1 - at);
  }

  private leave(gap: Gap): void {
    if (gap.kind !== 'base' && isPlain(gap.sum)) {
      const { plus } = gap.sum;
      this.bytes.push(...(gap.kind === 'number' ? signed(plus) : unsigned(plus)));
      return;
    }
    this.gaps.push({ at: this.bytes.length, gap });
    this.bytes.push(...(gap.kind === 'base' ? [op.get, gap.parameter] : new Array<number>(widest).fill(0)));
  }

  write(code: Code): void {
    if (typeof code === 'number') this.bytes.push(code);
    else if (!('kind' in code)) for (const part of code) this.write(part);
    else if (code.kind === 'nest') {
      this.bytes.push(code.op, 0x40);
      this.nests.push(code.target);
      this.write(code.body);
      if (code.otherwise !== null) {
        this.bytes.push(op.else);
        this.write(code.otherwise);
      }
      this.nests.pop();
      this.bytes.push(op.end);
    } else if (code.kind === 'jump') {
      const { targets } = code;
      const table = code.op === op.branchTable ? unsigned(targets.length - 1) : [];
      this.bytes.push(code.op, ...table, ...targets.flatMap((target) => this.out(target)));
    } else this.leave(code);
  }
}

const bytesOf = (types: readonly Type[]): number[][] => types.map((type) => [type]);
const signatureBytes = ({ parameters, results }: Signature): number[] => [
  functionType,
  ...listed(bytesOf(parameters)),
  ...listed(bytesOf(results)),
];

/** Symbols, sums and gaps as whole numbers: how many, then each. */
function ledgerOf(symbols: Symbols, gaps: Writer['gaps'], shift: number): number[] {
  const sums: Sum[] = [];
  const known = new Map<string, number>();
  const place = (sum: Sum): number => {
    const key = JSON.stringify([sum.plus, ...sum.terms]);
    if (!known.has(key)) known.set(key, sums.push(sum) - 1);
    return known.get(key)!;
  };
  const filled: number[] = [];
  let last = 0;
  for (const { at, gap } of gaps) {
    const of = gap.kind === 'base' ? gap.symbol : place(gap.sum);
    filled.push(at + shift - last, kinds.indexOf(gap.kind), of);
    last = at + shift;
  }
  const all = symbols.all.flatMap(({ of, at, type, mayMove }) => [
    of ?? -1,
    at,
    mayMove ? (type === 'i32' ? 1 : 2) : 0,
  ]);
  const added = sums.flatMap(({ plus, terms }) => [plus, terms.size, ...[...terms].flat()]);
  return [symbols.all.length, ...all, sums.length, ...added, gaps.length, ...filled];
}

/** A template as text: its module, and its ledger with the sign of each number in the lowest bit. */
export function packed({ bytes, ledger }: Template): { readonly bytes: string; readonly ledger: string } {
  const inText = (all: Uint8Array | number[]): string => Buffer.from(all).toString('base64');
  const numbers = ledger.flatMap((value) => unsigned(value < 0 ? -2 * value - 1 : 2 * value));
  return { bytes: inText(bytes), ledger: inText(numbers) };
}

/** `imported`: what the module calls of others, in the places that the folded function knows them by. */
export function templateOf(
  name: string,
  signature: Signature,
  { places, code }: Folded,
  symbols: Symbols,
  imported: readonly Imported[],
): Template {
  const writer = new Writer();
  writer.write(code);
  const body = [...listed(places.map((type) => [1, type])), ...writer.bytes, op.end];
  const own = imported.length;
  const signatures = [...imported.map((one) => one.signature), signature];
  const functions = imported.map(({ names }, k) => [...names.flatMap(text), kind.function, k]);
  const memory = [...text('env'), ...text('memory'), kind.memory, 0, 1];
  const sections: readonly (readonly [number, number[]])[] = [
    [section.type, listed(signatures.map(signatureBytes))],
    [section.import, listed([...functions, memory])],
    [section.function, listed([[own]])],
    [section.export, listed([[...text(name), kind.function, own]])],
    [section.code, listed([[...unsigned(body.length), ...body]])],
  ];
  const all = [...beginning];
  for (const [id, content] of sections) {
    all.push(id, ...unsigned(content.length));
    for (const byte of content) all.push(byte);
  }
  // The code is the last there is: what the writer wrote stands before the end of its body.
  const shift = all.length - 1 - writer.bytes.length;
  return { bytes: Uint8Array.from(all), ledger: ledgerOf(symbols, writer.gaps, shift) };
}
