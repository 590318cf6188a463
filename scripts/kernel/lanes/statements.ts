/**
 * Statements in two lanes. A branch that the turns may not share is taken by both, under a mask: what it writes is
 * chosen between new and old. What one turn hands to the next (a sum, a worst value, a flag) stays in the order of the turns.
 */
import ts from 'typescript';
import { stripped } from '../reach.ts';
import { typeOf } from '../types.ts';
import { Expressions, type Scope } from './expressions.ts';
import { asFlags, asNumbers, asWholes, chosen, eachOf, isPair, Refusal, type Value } from './value.ts';

/** What a method may return, and where: the first that holds is its result. */
type Returns = { readonly mask: string | null; readonly value: Value }[];

/** Where a statement stands: under which mask, and in which method that is written into the loop. */
interface Place {
  readonly scope: Scope;
  readonly mask: string | null;
  readonly returns: Returns | null;
}

const assigned: Readonly<Partial<Record<ts.SyntaxKind, string>>> = {
  [ts.SyntaxKind.PlusEqualsToken]: 'add',
  [ts.SyntaxKind.MinusEqualsToken]: 'sub',
  [ts.SyntaxKind.AsteriskEqualsToken]: 'mul',
};

const signs: Readonly<Record<string, string>> = { add: '+', sub: '-', mul: '*' };

/** Reads columns, divides or calls. */
function isCostly(node: ts.Node): boolean {
  return (
    ts.isCallExpression(node) ||
    ts.isElementAccessExpression(node) ||
    (ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.SlashToken) ||
    ts.forEachChild(node, isCostly) === true
  );
}

export abstract class Statements extends Expressions {
  /** Whether something has been written: from then on a turn may no longer end the loop. */
  private hasWritten = false;
  private readonly scattered: {
    readonly column: string;
    readonly places: readonly string[];
    readonly sign: string;
    readonly made: string;
  }[] = [];

  /** Writes a value around the loop that turns hand on: sums, worst values, flags. */
  protected abstract carry(node: ts.BinaryExpression, place: Place): void;

  protected block(node: ts.Statement, place: Place): void {
    if (!ts.isBlock(node)) this.statement(node, place);
    else for (const statement of node.statements) this.statement(statement, place);
  }

  private statement(node: ts.Statement, place: Place): void {
    if (ts.isBlock(node)) this.block(node, place);
    else if (ts.isVariableStatement(node))
      for (const declaration of node.declarationList.declarations) this.declare(declaration, place);
    else if (ts.isExpressionStatement(node)) this.assign(node.expression, place);
    else if (ts.isIfStatement(node)) this.branch(node, place);
    else if (ts.isReturnStatement(node)) this.leave(node, place);
    else if (ts.isForStatement(node)) this.inner(node, place);
    else if (ts.isSwitchStatement(node)) this.cases(node, place);
    else this.refused(node);
  }

  /** What may change later gets a place of its own, a pair. */
  private declare({ name, initializer, type, parent }: ts.VariableDeclaration, { scope }: Place): void {
    if (ts.isObjectBindingPattern(name)) {
      const of = this.value(initializer!, scope);
      if (of.is !== 'held') this.refused(name);
      for (const { propertyName, name: bound } of name.elements) {
        const text = this.preamble.name(
          `${(of as { text: string }).text}.${(propertyName ?? bound).getText()}`,
        );
        const bindingType = typeOf(this.reach, bound as ts.Identifier);
        scope.known.set(bound.getText(), this.fixedAs(text, bindingType));
      }
      return;
    }
    const made: Value | null = initializer === undefined ? null : this.value(initializer, scope);
    const isConstant = (parent as ts.VariableDeclarationList).flags & ts.NodeFlags.Const;
    if (isConstant && made !== null) {
      scope.known.set(name.getText(), isPair(made) ? this.kept(made) : this.standing(made));
      return;
    }
    const isFlag = made?.is === 'flag' || made?.is === 'flags';
    const isWhole = type?.getText() === 'Int' || made?.is === 'wholes';
    const text = this.preamble.fresh('v');
    const first =
      made === null ? 'f64x2.splat(0)' : isFlag ? asFlags(made) : isWhole ? asWholes(made) : asNumbers(made);
    this.lines.push(`let ${text}: v128 = ${first};`);
    scope.known.set(name.getText(), { is: isFlag ? 'flags' : isWhole ? 'wholes' : 'numbers', text });
  }

  /** What a counter within the turn moves is read once, where it is declared. */
  private standing(value: Value): Value {
    if ((value.is !== 'number' && value.is !== 'whole') || !this.preamble.isMoving(value.text)) return value;
    const text = this.preamble.fresh('r');
    this.preamble.move(text);
    this.lines.push(`const ${text}: ${value.is === 'number' ? 'f64' : 'i32'} = ${value.text};`);
    return { is: value.is, text };
  }

  private fixedAs(text: string, type: string | null): Value {
    if (type === null) throw new Refusal(`the type of ${text} is not known`);
    return { is: type === 'i32' ? 'whole' : type === 'f64' ? 'number' : 'held', text };
  }

  private assign(node: ts.Expression, place: Place): void {
    if (!ts.isBinaryExpression(node)) this.refused(node);
    const target = stripped(node.left);
    if (ts.isElementAccessExpression(target)) this.write(node, target, place);
    else if (ts.isIdentifier(target) && place.scope.known.has(target.text))
      this.set(node, target.text, place);
    else if (ts.isIdentifier(target) && place.returns === null) this.carry(node, place);
    else this.refused(node);
  }

  /** The new value of an assignment, from the old one where it adds to it. */
  private result(node: ts.BinaryExpression, old: () => Value, place: Place): Value {
    const made = this.value(node.right, place.scope);
    if (node.operatorToken.kind === ts.SyntaxKind.EqualsToken) return made;
    const how = assigned[node.operatorToken.kind];
    if (how === undefined) return this.refused(node);
    return { is: 'numbers', text: `f64x2.${how}(${asNumbers(old())}, ${this.both(made)})` };
  }

  private set(node: ts.BinaryExpression, name: string, { scope, mask }: Place): void {
    const old = scope.known.get(name)!;
    if (!isPair(old)) throw new Refusal(`${name} is the same in every turn`);
    const made = this.result(node, () => old, { scope, mask, returns: null });
    const now = mask === null ? made : chosen(mask, made, old);
    const text = old.is === 'numbers' ? asNumbers(now) : old.is === 'wholes' ? asWholes(now) : asFlags(now);
    this.lines.push(`${old.text} = ${text};`);
  }

  private write(node: ts.BinaryExpression, target: ts.ElementAccessExpression, place: Place): void {
    const { scope, mask } = place;
    const { text, type } = this.column(target.expression, scope);
    const at = this.value(target.argumentExpression, scope);
    this.hasWritten = true;
    this.mayWrite(text, at.is === 'place');
    if (at.is === 'wholes') {
      this.scatter(node, text, at, place);
      return;
    }
    if (at.is !== 'place') throw new Refusal(`${node.getText()} writes one place in every turn`);
    const { offset } = at;
    const old = (): Value => this.read(text, type, at);
    const made = this.result(node, old, place);
    const now = mask === null ? made : chosen(mask, made, old());
    if (type === 'F64s') {
      this.lines.push(`v128.store(${this.address(text, offset, 3)}, ${asNumbers(now)});`);
      return;
    }
    const [stored, shift] = type === 'I32s' ? ['i32', 2] : ['u8', 0];
    const each = eachOf(now.is === 'number' ? { is: 'whole', text: now.text } : now);
    for (const [k, value] of each.entries())
      this.lines.push(
        `store<${stored}>(${this.address(text, offset, shift)}, <${stored}>(${value}), ${k << shift});`,
      );
  }

  /**
   * Adds to places that both turns may share: all of the first turn's come first, at the end of the pair. One statement after
   * another would add the second turn's `from` before the first one's `to`, and a sum of three has other bits then.
   */
  private scatter(node: ts.BinaryExpression, column: string, at: Value, { scope, mask }: Place): void {
    const sign = signs[assigned[node.operatorToken.kind] ?? ''];
    if (mask !== null || sign === undefined) this.refused(node);
    const made = this.preamble.fresh('t');
    this.lines.push(`const ${made} = ${asNumbers(this.value(node.right, scope))};`);
    this.scattered.push({ column, places: eachOf(at), sign, made });
  }

  /** What the turns of a pair add to shared places, turn by turn. */
  protected scatters(): string[] {
    return [0, 1].flatMap((k) =>
      this.scattered.map(({ column, places, sign, made }) => {
        const place = `${column}[${places[k]}]`;
        return `${place} = ${place} ${sign} f64x2.extract_lane(${made}, ${k});`;
      }),
    );
  }

  /** Statements under a mask; what costs much is left out where it holds for neither turn. */
  private under(mask: string, statements: readonly ts.Statement[], { scope, returns }: Place): void {
    const from = this.lines.length;
    for (const statement of statements) this.block(statement, { scope, mask, returns });
    if (returns !== null || !statements.some(isCostly)) return;
    this.lines.splice(from, 0, `if (v128.any_true(${mask})) {`);
    this.lines.push('}');
  }

  private branch(node: ts.IfStatement, place: Place): void {
    const { scope, mask, returns } = place;
    const condition = this.value(node.expression, scope);
    const text = this.preamble.fresh('m');
    this.lines.push(`const ${text} = ${asFlags(condition)};`);
    const both = (other: string): string => (mask === null ? other : `v128.and(${mask}, ${other})`);
    this.under(both(text), [node.thenStatement], { scope, mask, returns });
    if (node.elseStatement !== undefined)
      this.under(both(`v128.not(${text})`), [node.elseStatement], { scope, mask, returns });
  }

  /** A `switch` whose cases end by `break`. */
  private cases(node: ts.SwitchStatement, { scope, mask, returns }: Place): void {
    const of = this.value(node.expression, scope);
    const taken: string[] = [];
    for (const clause of node.caseBlock.clauses) {
      const last = clause.statements.at(-1);
      const isLast = clause === node.caseBlock.clauses.at(-1);
      const isWhole = ts.isDefaultClause(clause)
        ? isLast
        : last !== undefined && (ts.isBreakStatement(last) || ts.isReturnStatement(last));
      if (!isWhole) this.refused(node);
      const text = this.preamble.fresh('m');
      const own = ts.isDefaultClause(clause)
        ? taken.reduce((all, other) => `v128.or(${all}, ${other})`)
        : `i64x2.eq(${asWholes(of)}, ${asWholes(this.value(clause.expression, scope))})`;
      this.lines.push(`const ${text} = ${ts.isDefaultClause(clause) ? `v128.not(${own})` : own};`);
      taken.push(text);
      const inner = mask === null ? text : `v128.and(${mask}, ${text})`;
      const statements = clause.statements.filter((statement) => !ts.isBreakStatement(statement));
      this.under(inner, statements, { scope, mask, returns });
    }
  }

  /** A loop within a turn, of as many rounds in every turn. */
  private inner({ initializer, condition, incrementor, statement }: ts.ForStatement, place: Place): void {
    const [declared] = (initializer as ts.VariableDeclarationList).declarations;
    if (declared?.initializer === undefined || condition === undefined || !ts.isBinaryExpression(condition))
      throw new Refusal('no rounds that are counted');
    const first = this.value(declared.initializer, place.scope);
    const most = this.value(condition.right, place.scope);
    const isUp = incrementor !== undefined && ts.isPostfixUnaryExpression(incrementor);
    if (
      !isUp ||
      condition.operatorToken.kind !== ts.SyntaxKind.LessThanToken ||
      isPair(first) ||
      isPair(most)
    )
      throw new Refusal('no rounds that are the same in every turn');
    const counter = this.preamble.fresh('j');
    this.preamble.move(counter);
    place.scope.known.set(declared.name.getText(), { is: 'whole', text: counter });
    const [from, to] = [first, most].map(
      (end) => eachOf(end.is === 'number' ? { is: 'whole', text: end.text } : end)[0],
    );
    this.lines.push(`for (let ${counter}: i32 = ${from}; ${counter} < ${to}; ${counter}++) {`);
    const before = this.scattered.length;
    this.block(statement, place);
    if (this.scattered.length > before) throw new Refusal('rounds that add to shared places');
    this.lines.push('}');
  }

  /** Of a method: a result, where the mask holds. Of the loop itself: the end of all, where any turn says so. */
  private leave(node: ts.ReturnStatement, { scope, mask, returns }: Place): void {
    if (returns !== null) {
      const value = this.value(node.expression!, scope);
      returns.push({ mask, value: isPair(value) ? this.kept(value) : value });
      return;
    }
    const value = this.value(node.expression!, scope);
    if (mask === null || value.is !== 'flag' || this.hasWritten) this.refused(node);
    this.lines.push(`if (v128.any_true(${mask})) return ${(value as { text: string }).text};`);
  }

  protected override called(call: ts.CallExpression, scope: Scope): Value {
    const { expression, arguments: given } = call;
    const name = ts.isPropertyAccessExpression(expression) ? expression.name : expression;
    const to = this.reach.declarationOf(name);
    if (
      to === undefined ||
      !(ts.isMethodDeclaration(to) || ts.isFunctionDeclaration(to)) ||
      to.body === undefined
    )
      return this.refused(call);
    const self = ts.isPropertyAccessExpression(expression) ? this.value(expression.expression, scope) : null;
    const known = new Map(
      to.parameters.map((parameter, k) => {
        const value = this.value(given[k]!, scope);
        return [parameter.name.getText(), isPair(value) ? this.kept(value) : value] as const;
      }),
    );
    const inside: Scope = { self: self?.is === 'held' ? self.text : '', isOpen: false, known };
    const returns: { mask: string | null; value: Value }[] = [];
    this.block(to.body, { scope: inside, mask: null, returns });
    const last = returns.pop();
    if (last === undefined || last.mask !== null) return this.refused(call);
    const result = returns.reverse().reduce((rest, { mask, value }) => {
      if (mask === null) return this.refused(call);
      return chosen(mask, value, rest);
    }, last.value);
    return isPair(result) ? this.kept(result) : result;
  }
}
