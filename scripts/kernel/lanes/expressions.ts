/**
 * Expressions in two lanes. Both turns take the same instructions, so what one of them does not want is worked out as
 * well and left out by a mask: nothing here may trap or write. The bits are those of one turn after the other, for
 * every lane is a float of its own.
 */
import ts from 'typescript';
import { type Reach, stripped } from '../reach.ts';
import { typeOf } from '../types.ts';
import type { Preamble } from './preamble.ts';
import {
  asFlags,
  asNumbers,
  asWholes,
  chosen,
  eachOf,
  isPair,
  type Pair,
  Refusal,
  type Value,
} from './value.ts';

/** What names stand for: locals of the loop, parameters of a method that is written into it, and `this`. */
export interface Scope {
  readonly self: string;
  /** Whether names that are not in `known` are those around the loop; within a method there are none. */
  readonly isOpen: boolean;
  readonly known: Map<string, Value>;
}

const arithmetic: Readonly<Partial<Record<ts.SyntaxKind, string>>> = {
  [ts.SyntaxKind.PlusToken]: 'add',
  [ts.SyntaxKind.MinusToken]: 'sub',
  [ts.SyntaxKind.AsteriskToken]: 'mul',
  [ts.SyntaxKind.SlashToken]: 'div',
};

const comparisons: Readonly<Partial<Record<ts.SyntaxKind, string>>> = {
  [ts.SyntaxKind.LessThanToken]: 'lt',
  [ts.SyntaxKind.LessThanEqualsToken]: 'le',
  [ts.SyntaxKind.GreaterThanToken]: 'gt',
  [ts.SyntaxKind.GreaterThanEqualsToken]: 'ge',
  [ts.SyntaxKind.EqualsEqualsEqualsToken]: 'eq',
  [ts.SyntaxKind.ExclamationEqualsEqualsToken]: 'ne',
};

/** What reads the same wherever it stands: worked out once before the loop. */
const isFixed = (value: Value): boolean =>
  value.is === 'whole' || value.is === 'number' || value.is === 'flag';

export abstract class Expressions {
  protected readonly reach: Reach;
  protected readonly preamble: Preamble;
  protected readonly counter: string;
  /** Statements of the loop so far. */
  protected readonly lines: string[] = [];
  /** Columns that turns read and write at places of their own, and at places that a column tells. */
  protected readonly own = { read: new Set<string>(), written: new Set<string>() };
  protected readonly told = { read: new Set<string>(), written: new Set<string>() };

  constructor(reach: Reach, preamble: Preamble, counter: string) {
    this.reach = reach;
    this.preamble = preamble;
    this.counter = counter;
  }

  /** The result of a method that is written into the loop. */
  protected abstract called(call: ts.CallExpression, scope: Scope): Value;

  /** Whether the loop writes a column. */
  protected abstract isWritten(column: ts.Expression): boolean;

  /** Whether a name around the loop may change within it. */
  protected abstract isCarried(name: string): boolean;

  /** A pair under a name of its own, worked out here. */
  protected kept(pair: Pair): Pair {
    if (pair.is === 'numbers' && pair.counted !== undefined) return pair;
    const text = this.preamble.fresh('t');
    this.lines.push(`const ${text} = ${pair.text};`);
    return pair.is === 'wholes' && pair.each !== undefined ? { ...pair, text } : { is: pair.is, text };
  }

  protected value(node: ts.Expression, scope: Scope): Value {
    const expression = stripped(node);
    if (ts.isNumericLiteral(expression)) return { is: 'number', text: expression.text };
    if (expression.kind === ts.SyntaxKind.TrueKeyword) return { is: 'flag', text: 'true' };
    if (expression.kind === ts.SyntaxKind.FalseKeyword) return { is: 'flag', text: 'false' };
    if (expression.kind === ts.SyntaxKind.ThisKeyword) return { is: 'held', text: scope.self };
    if (ts.isIdentifier(expression)) return this.named(expression, scope);
    if (ts.isPropertyAccessExpression(expression)) return this.member(expression, scope);
    if (ts.isElementAccessExpression(expression)) return this.element(expression, scope);
    if (ts.isPrefixUnaryExpression(expression)) return this.prefixed(expression, scope);
    if (ts.isBinaryExpression(expression)) return this.combined(expression, scope);
    if (ts.isConditionalExpression(expression)) return this.choice(expression, scope);
    if (ts.isCallExpression(expression)) return this.call(expression, scope);
    throw new Refusal(`${expression.getText()} has no form in two lanes`);
  }

  private named(name: ts.Identifier, scope: Scope): Value {
    const known = scope.known.get(name.text);
    if (known !== undefined) return known;
    const to = this.reach.declarationOf(name);
    const isConstant =
      to !== undefined && ts.isVariableDeclaration(to) && ts.isSourceFile(to.parent.parent.parent);
    if (!isConstant && (!scope.isOpen || this.isCarried(name.text)))
      throw new Refusal(`${name.text} is carried from turn to turn`);
    if (isConstant && to.type === undefined) return { is: 'number', text: name.text };
    return this.fixed(name.text, typeOf(this.reach, name));
  }

  /** Something of a known type that no turn changes. */
  private fixed(text: string, type: string | null): Value {
    if (type === null) throw new Refusal(`the type of ${text} is not known`);
    if (type === 'i32') return { is: 'whole', text };
    if (type === 'f64') return { is: 'number', text };
    if (type === 'bool') return { is: 'flag', text };
    return { is: 'held', text };
  }

  private member(node: ts.PropertyAccessExpression, scope: Scope): Value {
    if (node.expression.getText() === 'Number') return { is: 'number', text: node.getText() };
    const to = this.reach.declarationOf(node.name);
    if (to !== undefined && ts.isPropertyAssignment(to)) {
      const constant = stripped(to.initializer);
      if (ts.isNumericLiteral(constant)) return { is: 'number', text: constant.text };
    }
    const of = this.value(node.expression, scope);
    if (of.is !== 'held') throw new Refusal(`${node.getText()} is no member of a structure`);
    return this.fixed(this.preamble.name(`${of.text}.${node.name.text}`), typeOf(this.reach, node));
  }

  /** Where a column's place for this turn lies in the memory; each turn moves it on. */
  protected address(column: string, offset: string, shift: number): string {
    const from = this.preamble.name(`changetype<usize>(${column}) + (<usize>(${offset}) << ${shift})`);
    return `${from} + (<usize>${this.counter} << ${shift})`;
  }

  protected column(node: ts.Expression, scope: Scope): { readonly text: string; readonly type: string } {
    const of = this.value(node, scope);
    const type = typeOf(this.reach, node);
    if (of.is !== 'held' || type === null || !['F64s', 'I32s', 'U8s'].includes(type))
      throw new Refusal(`${node.getText()} is no column`);
    return { text: of.text, type };
  }

  private element(node: ts.ElementAccessExpression, scope: Scope): Value {
    const { text, type } = this.column(node.expression, scope);
    const at = this.value(node.argumentExpression, scope);
    if ((at.is === 'whole' || at.is === 'number') && !this.isWritten(node.expression))
      return { is: type === 'F64s' ? 'number' : 'whole', text: `${text}[${at.text}]` };
    return this.read(text, type, at);
  }

  /** Both turns' values of a column. */
  protected read(column: string, type: string, at: Value): Value {
    this.mayRead(column, at.is === 'place');
    if (at.is === 'place') {
      if (type === 'F64s')
        return this.kept({ is: 'numbers', text: `v128.load(${this.address(column, at.offset, 3)})` });
      if (type === 'U8s') {
        const text = this.preamble.fresh('w');
        this.lines.push(`const ${text} = ${bytes(this.address(column, at.offset, 0))};`);
        return { is: 'wholes', text };
      }
      const address = this.address(column, at.offset, 2);
      return this.wholes([0, 1].map((k) => `load<i32>(${address}, ${k << 2})`) as [string, string]);
    }
    if (at.is !== 'wholes' || type !== 'F64s')
      throw new Refusal(`${column} is read at the same place in every turn`);
    const [a, b] = eachOf(at);
    return this.kept({
      is: 'numbers',
      text: `v128.load_lane<f64>(${placed(column, b)}, v128.load_zero<f64>(${placed(column, a)}), 1)`,
    });
  }

  /** The second turn must not read what the first has yet to write: only its own place is left alone by all others. */
  private mayRead(column: string, isOwn: boolean): void {
    if (this.told.written.has(column) || (!isOwn && this.own.written.has(column)))
      throw new Refusal(`${column} is read where another turn may write`);
    (isOwn ? this.own : this.told).read.add(column);
  }

  /** The same, of what is written. */
  protected mayWrite(column: string, isOwn: boolean): void {
    if (this.told.read.has(column) || (!isOwn && this.own.read.has(column)))
      throw new Refusal(`${column} is written where another turn may read`);
    (isOwn ? this.own : this.told).written.add(column);
  }

  /** A pair of whole numbers, each under a name. */
  private wholes(texts: readonly [string, string]): Value {
    const each = texts.map((text) => {
      const name = this.preamble.fresh('n');
      this.lines.push(`const ${name}: i32 = ${text};`);
      return name;
    }) as [string, string];
    return {
      is: 'wholes',
      text: `i64x2.replace_lane(i64x2.splat(<i64>${each[0]}), 1, <i64>${each[1]})`,
      each,
    };
  }

  private prefixed(node: ts.PrefixUnaryExpression, scope: Scope): Value {
    const value = this.value(node.operand, scope);
    if (node.operator === ts.SyntaxKind.MinusToken)
      return isPair(value)
        ? { is: 'numbers', text: `f64x2.neg(${asNumbers(value)})` }
        : isFixed(value)
          ? { is: 'number', text: `-(${(value as { text: string }).text})` }
          : this.refused(node);
    if (node.operator === ts.SyntaxKind.ExclamationToken)
      return { is: 'flags', text: `v128.not(${asFlags(value)})` };
    return this.refused(node);
  }

  private combined(node: ts.BinaryExpression, scope: Scope): Value {
    const { kind } = node.operatorToken;
    const left = this.value(node.left, scope);
    const right = this.value(node.right, scope);
    if (kind === ts.SyntaxKind.PlusToken) {
      const place = sumOfPlaces(left, right) ?? sumOfWholes(left, right);
      if (place !== null) return place;
    }
    const made = arithmetic[kind];
    if (made !== undefined) {
      if (!isPair(left) && !isPair(right)) return this.once(node, left, right);
      return { is: 'numbers', text: `f64x2.${made}(${this.both(left)}, ${this.both(right)})` };
    }
    const compared = comparisons[kind];
    if (compared !== undefined) return this.comparison(node, compared, left, right);
    if (kind === ts.SyntaxKind.AmpersandAmpersandToken)
      return { is: 'flags', text: `v128.and(${asFlags(left)}, ${asFlags(right)})` };
    if (kind === ts.SyntaxKind.BarBarToken)
      return { is: 'flags', text: `v128.or(${asFlags(left)}, ${asFlags(right)})` };
    return this.refused(node);
  }

  /** A number in both lanes, made once where it is the same in both. */
  protected both(value: Value): string {
    return isPair(value) ? asNumbers(value) : this.preamble.name(asNumbers(value));
  }

  /** Arithmetic that is the same in every turn. */
  private once(node: ts.BinaryExpression, left: Value, right: Value): Value {
    if (!isFixed(left) || !isFixed(right)) return this.refused(node);
    const [a, b] = [left, right].map((side) => (side as { text: string }).text) as [string, string];
    const sign = node.operatorToken.getText();
    const isWhole =
      typeOf(this.reach, node) === 'i32' || (left.is === 'whole' && right.is === 'whole' && sign !== '/');
    if (isWhole) return { is: 'whole', text: `(${a} ${sign} ${b})` };
    return { is: 'number', text: sign === '/' ? `(<f64>(${a}) / ${b})` : `(${a} ${sign} ${b})` };
  }

  private comparison(node: ts.Expression, how: string, left: Value, right: Value): Value {
    if (left.is === 'flags' || right.is === 'flags') {
      const same = `i64x2.eq(${asFlags(left)}, ${asFlags(right)})`;
      return { is: 'flags', text: how === 'eq' ? same : `v128.not(${same})` };
    }
    if (left.is === 'wholes' || right.is === 'wholes')
      return {
        is: 'flags',
        text: `i64x2.${how === 'lt' ? 'lt_s' : how}(${asWholes(left)}, ${asWholes(right)})`,
      };
    if (!isPair(left) && !isPair(right)) return this.refused(node);
    return { is: 'flags', text: `f64x2.${how}(${this.both(left)}, ${this.both(right)})` };
  }

  /** `a < b ? a : b` is one instruction; other choices take both and a mask. */
  private choice(node: ts.ConditionalExpression, scope: Scope): Value {
    const condition = this.value(node.condition, scope);
    const yes = this.value(node.whenTrue, scope);
    const no = this.value(node.whenFalse, scope);
    const asked = stripped(node.condition);
    if (ts.isBinaryExpression(asked) && (yes.is === 'numbers' || no.is === 'numbers')) {
      const [a, b] = [asked.left, asked.right].map((side) => stripped(side).getText());
      const isSame = a === stripped(node.whenTrue).getText() && b === stripped(node.whenFalse).getText();
      const { kind } = asked.operatorToken;
      if (isSame && kind === ts.SyntaxKind.LessThanToken)
        return this.kept({ is: 'numbers', text: `f64x2.pmin(${this.both(no)}, ${this.both(yes)})` });
      if (isSame && kind === ts.SyntaxKind.GreaterThanToken)
        return this.kept({ is: 'numbers', text: `f64x2.pmax(${this.both(no)}, ${this.both(yes)})` });
    }
    return this.kept(chosen(asFlags(condition), yes, no));
  }

  private call(node: ts.CallExpression, scope: Scope): Value {
    const { expression, arguments: given } = node;
    if (ts.isPropertyAccessExpression(expression) && expression.expression.getText() === 'Math') {
      const how = expression.name.text;
      if (how !== 'sqrt' && how !== 'abs') return this.refused(node);
      return this.kept({ is: 'numbers', text: `f64x2.${how}(${asNumbers(this.value(given[0]!, scope))})` });
    }
    return this.called(node, scope);
  }

  protected refused(node: ts.Node): never {
    throw new Refusal(`${node.getText()} has no form in two lanes`);
  }
}

/** Address of a place of a column of floats. */
function placed(column: string, at: string): string {
  return `changetype<usize>(${column}) + (<usize>(${at}) << 3)`;
}

/** Two bytes from an address on, each as a whole number; the two behind them are read with them. */
function bytes(address: string): string {
  const nothing = Array<number>(7).fill(-1);
  const taken = [0, ...nothing, 1, ...nothing].join(', ');
  return `v128.swizzle(v128.load_zero<i32>(${address}), i8x16(${taken}))`;
}

/** A place and a whole number make another place. */
function sumOfPlaces(left: Value, right: Value): Value | null {
  const [place, other] = left.is === 'place' ? [left, right] : [right, left];
  if (place.is !== 'place') return null;
  if (other.is !== 'whole' && other.is !== 'number') throw new Refusal('no place of a column');
  return { is: 'place', offset: `${place.offset} + ${other.text}` };
}

/** A pair of whole numbers and one that is the same for both. */
function sumOfWholes(left: Value, right: Value): Value | null {
  const [pair, other] = left.is === 'wholes' ? [left, right] : [right, left];
  if (pair.is !== 'wholes' || other.is !== 'whole') return null;
  const each = eachOf(pair).map((text) => `(${text} + ${other.text})`) as [string, string];
  return { is: 'wholes', text: `i64x2.add(${asWholes(pair)}, ${asWholes(other)})`, each };
}
