/**
 * A function folded over what never changes about the memory of one cabinet: all that it calls is written into it, and
 * every field of a structure becomes a constant, so that a column is read at an address in the instruction instead of one
 * that is fetched and added. Nothing is left out or put in another order, so the bits are the same.
 *
 * Code is followed as it would run. A value that is known (a sum of symbols) is carried along instead of a local; where two
 * ways meet with different ones, or a loop may change it, it is put into a place first.
 */
import { unsigned } from '../../../src/base/wasm-bytes.ts';
import type { Code, Value } from './code.ts';
import {
  type Access,
  accessOf,
  codeOf,
  type Instruction,
  noResult,
  op,
  operationOf,
  type Type,
  type as types,
} from './instructions.ts';
import type { Module } from './module.ts';
import { plain, type Symbols } from './symbols.ts';
import {
  arithmetic,
  constant,
  inLocal,
  inPlace,
  isOfStructure,
  known,
  made,
  moving,
  reached,
  whole,
  zero,
} from './values.ts';
import { type Label, Ways } from './ways.ts';

/** A function folded: places beside its parameters, and its code. */
export interface Folded {
  readonly places: readonly Type[];
  readonly code: Code;
}

/** Locals that instructions put something into. */
function changedBy(body: readonly Instruction[], into = new Set<number>()): Set<number> {
  for (const { op: code, numbers, body: inner, otherwise } of body) {
    if (code === op.set || code === op.tee) into.add(numbers[0]!);
    changedBy(inner, into);
    changedBy(otherwise, into);
  }
  return into;
}

class Folder {
  private readonly module: Module;
  private readonly symbols: Symbols;
  private readonly ways: Ways;
  private out: Code[] = [];
  private stack: Value[] = [];
  /** Labels of the function that is being folded, the innermost last, and of those that it is written into before them. */
  private readonly labels: Label[] = [];
  /** Where the labels of each open function begin. */
  private readonly firsts: number[] = [];

  constructor(module: Module, symbols: Symbols, parameters: number) {
    this.module = module;
    this.symbols = symbols;
    this.ways = new Ways(parameters);
  }

  fold(index: number, handed: readonly Value[]): Folded {
    this.enter(index, handed);
    return { places: this.ways.places, code: [this.out, this.stack.map(whole)] };
  }

  /** Writes a function here, over what it is handed. */
  private enter(index: number, handed: readonly Value[]): boolean {
    const { signature, locals, body } = this.module.functions[index]!;
    const { ways } = this;
    ways.frames.push({ types: [...signature.parameters, ...locals], places: [] });
    ways.known.push([...handed, ...locals.map(zero)]);
    this.firsts.push(this.labels.length);
    const isAlive = this.within(body!, signature.results[0] ?? null);
    this.firsts.pop();
    ways.frames.pop();
    ways.known.length = ways.frames.length;
    return isAlive;
  }

  private pop(): Value {
    const value = this.stack.pop();
    if (value === undefined) throw new Error('nothing is on the stack');
    return value;
  }

  private popped(count: number): Value[] {
    return this.stack.splice(this.stack.length - count);
  }

  /** Works out now what waits on the stack and may be changed by what comes. */
  private settle(may: (value: Value) => boolean): void {
    this.stack.forEach((value, k) => {
      if (value.fixed === null && may(value)) this.stack[k] = this.kept(value);
    });
  }

  private settleAll(): void {
    this.settle(() => true);
  }

  private settleMemory(): void {
    this.settle(({ readsMemory }) => readsMemory);
  }

  /** A value in a place of its own, into which nothing else is put. */
  private kept(value: Value): Value {
    const place = this.ways.place(value.type);
    this.out.push([whole(value), op.set, ...unsigned(place)]);
    return inPlace(place, value.type);
  }

  private label(result: Type | null, changed: readonly number[] | null = null): Label {
    return {
      jumps: 0,
      arrivals: [],
      depth: this.ways.frames.length,
      result: result === null ? null : { type: result, place: null },
      changed,
    };
  }

  /** The label that is so many blocks out. */
  private target(out: number): Label {
    const at = this.labels.length - 1 - out;
    if (at < this.firsts.at(-1)!) throw new Error('a branch leaves its function');
    return this.labels[at]!;
  }

  /** Ends a way at a label; what is put into places before it goes into `before`. */
  private arrive(label: Label, before: Code[]): void {
    const { ways } = this;
    if (label.result !== null) {
      label.result.place ??= ways.place(label.result.type);
      before.push([whole(this.stack.at(-1)!), op.set, ...unsigned(label.result.place)]);
    }
    const state = ways.copy(label.depth);
    if (label.changed === null) label.arrivals.push({ known: state, before });
    else for (const local of label.changed) ways.put(state, before, label.depth - 1, local);
  }

  private branch(code: number, to: readonly Label[], condition: Code = []): void {
    const before: Code[] = [];
    for (const label of new Set(to)) this.arrive(label, before);
    for (const label of to) label.jumps++;
    this.out.push([before, condition, { kind: 'jump', op: code, targets: to }]);
  }

  /** Follows code on a sheet of its own; whether its end is reached. */
  private on(sheet: Code[], body: readonly Instruction[]): boolean {
    const { out } = this;
    this.out = sheet;
    const isAlive = this.follow(body);
    this.out = out;
    return isAlive;
  }

  /** Goes on behind a label where the ways to it have met. */
  private behind(label: Label, depth: number): boolean {
    this.stack.length = depth;
    if (label.arrivals.length === 0) return false;
    this.ways.meet(label.arrivals);
    if (label.result !== null) this.stack.push(inPlace(label.result.place!, label.result.type));
    return true;
  }

  private within(body: readonly Instruction[], result: Type | null): boolean {
    this.settleAll();
    const depth = this.stack.length;
    const label = this.label(result);
    const sheet: Code[] = [];
    this.labels.push(label);
    const isAlive = this.on(sheet, body);
    this.labels.pop();
    if (label.jumps === 0) {
      this.out.push(sheet);
      if (!isAlive) this.stack.length = depth;
      return isAlive;
    }
    if (isAlive) this.fall(label, sheet);
    this.out.push({ kind: 'nest', op: op.block, target: label, body: sheet, otherwise: null });
    return this.behind(label, depth);
  }

  /** The end of a sheet as a way to the label behind it. */
  private fall(label: Label, sheet: Code[]): void {
    const before: Code[] = [];
    this.arrive(label, before);
    sheet.push(before);
  }

  private choose({ numbers, body, otherwise }: Instruction): boolean {
    const condition = whole(this.pop());
    this.settleAll();
    const depth = this.stack.length;
    const label = this.label(resultOf(numbers[0]!));
    const before = this.ways.copy();
    const sheets: readonly [Code[], Code[]] = [[], []];
    this.labels.push(label);
    if (this.on(sheets[0], body)) this.fall(label, sheets[0]);
    this.stack.length = depth;
    this.ways.known = before;
    if (this.on(sheets[1], otherwise)) this.fall(label, sheets[1]);
    this.labels.pop();
    this.out.push(condition, {
      kind: 'nest',
      op: op.if,
      target: label,
      body: sheets[0],
      otherwise: sheets[1],
    });
    return this.behind(label, depth);
  }

  private repeat(body: readonly Instruction[]): boolean {
    this.settleAll();
    const { ways, out } = this;
    const depth = this.stack.length;
    const changed = [...changedBy(body)];
    for (const local of changed) ways.put(ways.known, out, ways.frames.length - 1, local);
    const label = this.label(null, changed);
    const sheet: Code[] = [];
    this.labels.push(label);
    const isAlive = this.on(sheet, body);
    this.labels.pop();
    out.push({ kind: 'nest', op: op.loop, target: label, body: sheet, otherwise: null });
    this.stack.length = depth;
    return isAlive;
  }

  private call(index: number): boolean {
    const { signature, body } = this.module.functions[index]!;
    this.settleMemory();
    const handed = this.popped(signature.parameters.length);
    if (body === null) {
      if (signature.results.length > 0) throw new Error('what is imported must not return anything');
      this.out.push([handed.map(whole), op.call, ...unsigned(index)]);
      return true;
    }
    this.settleAll();
    return this.enter(
      index,
      handed.map((value) => (value.fixed === null ? this.kept(value) : value)),
    );
  }

  private set(local: number, value: Value): void {
    const { ways } = this;
    const frame = ways.frames.length - 1;
    const place = ways.frames[frame]!.places[local] ?? null;
    if (place !== null) this.settle(({ locals }) => locals.includes(place));
    ways.known[frame]![local] = value;
    // Only what is fixed stays as it is until it is used.
    if (value.fixed === null) ways.put(ways.known, this.out, frame, local);
  }

  private get(local: number): Value {
    const { ways } = this;
    const frame = ways.frames.length - 1;
    const value = ways.known[frame]![local] ?? null;
    return value ?? inLocal(ways.placeOf(frame, local), ways.frames[frame]!.types[local]!);
  }

  /** What a field of a structure holds; null where the address is no field's. */
  private field(address: Value, offset: number): Value | null {
    const { symbols } = this;
    const behind = isOfStructure(address) ? symbols.behind(address.sum) : null;
    if (behind === null) return null;
    const { symbol: of, at } = behind;
    const symbol = symbols.field(of, at + offset);
    if (symbol === null) return null;
    const { type, mayMove } = symbols.all[symbol]!;
    const sum = symbols.sum(symbol);
    return mayMove && type !== 'i32' ? moving(symbol, symbols.parameterOf(symbol), sum) : known(sum);
  }

  private access({ kind, data, leaves }: Access, { op: code, numbers, bytes }: Instruction): void {
    const value = data ? this.pop() : null;
    const address = this.pop();
    const [alignment, offset] = numbers as readonly [number, number];
    const field = code === op.i32Load ? this.field(address, offset) : null;
    if (field !== null) {
      this.stack.push(field);
      return;
    }
    const at = reached(address, offset);
    const taken = value === null ? [] : [value];
    const done: Code = [
      at.from,
      taken.map(whole),
      ...codeOf(code),
      ...unsigned(alignment),
      { kind: 'offset', sum: at.offset },
      ...bytes,
    ];
    if (kind === 'store') {
      this.settleMemory();
      this.out.push(done);
    } else this.stack.push({ ...made(leaves!, done, [address, ...taken]), readsMemory: true });
  }

  private operate({ op: code, bytes }: Instruction): void {
    const { takes, leaves } = operationOf(code);
    const taken = this.popped(takes);
    const whole32 = takes === 2 ? arithmetic(code, taken[0]!, taken[1]!) : null;
    this.stack.push(whole32 ?? made(leaves, [taken.map(whole), ...codeOf(code), ...bytes], taken));
  }

  private follow(body: readonly Instruction[]): boolean {
    return body.every((instruction) => this.take(instruction));
  }

  /** Takes one instruction; false where nothing behind it is reached. */
  private take(instruction: Instruction): boolean {
    const { op: code, numbers, bytes, body } = instruction;
    switch (code) {
      case op.unreachable:
        this.out.push(code);
        return false;
      case op.block:
        return this.within(body, resultOf(numbers[0]!));
      case op.loop:
        return this.repeat(body);
      case op.if:
        return this.choose(instruction);
      case op.branch:
        this.branch(op.branch, [this.target(numbers[0]!)]);
        return false;
      case op.return:
        this.branch(op.branch, [this.labels[this.firsts.at(-1)!]!]);
        return false;
      case op.branchIf: {
        const condition = whole(this.pop());
        this.settleAll();
        this.branch(code, [this.target(numbers[0]!)], condition);
        return true;
      }
      case op.branchTable: {
        const index = whole(this.pop());
        this.branch(
          code,
          numbers.map((out) => this.target(out)),
          index,
        );
        return false;
      }
      case op.call:
        return this.call(numbers[0]!);
      case op.drop:
        this.pop();
        return true;
      case op.select: {
        const taken = this.popped(3);
        this.stack.push(made(taken[0]!.type, [taken.map(whole), code], taken));
        return true;
      }
      case op.get:
        this.stack.push(this.get(numbers[0]!));
        return true;
      case op.set:
        this.set(numbers[0]!, this.pop());
        return true;
      case op.tee:
        this.set(numbers[0]!, this.pop());
        this.stack.push(this.get(numbers[0]!));
        return true;
      case op.i32Const:
        this.stack.push(known(plain(numbers[0]!)));
        return true;
      case op.f64Const:
        this.stack.push(constant(types.f64, code, bytes));
        return true;
      case op.v128Const:
        this.stack.push(constant(types.v128, code, bytes));
        return true;
      case op.copy:
        this.settleMemory();
        this.out.push([this.popped(3).map(whole), ...codeOf(code), ...bytes]);
        return true;
    }
    const access = accessOf(code);
    if (access === null) this.operate(instruction);
    else this.access(access, instruction);
    return true;
  }
}

const resultOf = (type: number): Type | null => (type === noResult ? null : type);

/** `structures`: of each parameter the structure whose address it is, null for a number. */
export function folded(
  module: Module,
  index: number,
  symbols: Symbols,
  structures: readonly (string | null)[],
): Folded {
  const { parameters } = module.functions[index]!.signature;
  const handed = structures.map((structure, k) => {
    if (structure === null) return inPlace(k, parameters[k]!);
    const mayMove = structures.slice(0, k).some((before) => before !== null);
    const symbol = symbols.root(k, structure, mayMove);
    return mayMove ? moving(symbol, k, symbols.sum(symbol)) : known(symbols.sum(symbol));
  });
  return new Folder(module, symbols, structures.length).fold(index, handed);
}
