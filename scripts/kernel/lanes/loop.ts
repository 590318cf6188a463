/**
 * A loop over the units of a kind, two turns at once: `for (let k = 0; k < count; k++)`, or from another first, whose turns read and write their
 * own places of columns. Written out are the pairs; the loop as it stands takes what is left of an odd count.
 *
 * Two turns at once read before either has written. That is the same as one after the other as long as no turn reads
 * what the one before has written. A column that is written at places that another column tells, or read there and written, is
 * refused; different columns have memory of their own, and states of different kinds or of different names never overlap.
 */
import ts from 'typescript';
import { type Reach, stripped } from '../reach.ts';
import { typeOf } from '../types.ts';
import { Preamble } from './preamble.ts';
import { Statements } from './statements.ts';
import { asNumbers, isPair, Refusal } from './value.ts';

/** The pairs of a loop as text, from its first turn on; `counter` is where they have ended. */
export interface Pairs {
  readonly text: string;
  readonly counter: string;
}

/** The loop in pairs; null where its turns do more than their own. */
export function inPairs(reach: Reach, loop: ts.ForStatement): Pairs | null {
  try {
    return new LaneLoop(reach, loop).pairs();
  } catch (error) {
    if (error instanceof Refusal) return null;
    throw error;
  }
}

const isAssignment = (kind: ts.SyntaxKind): boolean =>
  kind >= ts.SyntaxKind.FirstAssignment && kind <= ts.SyntaxKind.LastAssignment;

const counts: readonly ts.SyntaxKind[] = [ts.SyntaxKind.PlusPlusToken, ts.SyntaxKind.MinusMinusToken];

interface Counted {
  readonly counter: string;
  readonly first: string;
  readonly most: string;
}

type Carried = Parameters<Statements['carry']>;

class LaneLoop extends Statements {
  private readonly loop: ts.ForStatement;
  private readonly counted: Counted;
  /** Worst values on their way: a pair for each, joined when the pairs are over. */
  private readonly before: string[] = [];
  private readonly after: string[] = [];

  constructor(reach: Reach, loop: ts.ForStatement) {
    const counted = countOf(loop);
    super(reach, new Preamble(), counted.counter);
    this.loop = loop;
    this.counted = counted;
  }

  pairs(): Pairs {
    const { loop } = this;
    const { counter, first, most } = this.counted;
    const scope = {
      self: 'this',
      isOpen: true,
      known: new Map([[counter, { is: 'place', offset: '0' } as const]]),
    };
    this.block(loop.statement, { scope, mask: null, returns: null });
    const text = [
      `let ${counter}: i32 = ${first};`,
      ...this.before,
      ...this.preamble.lines(),
      `for (; ${counter} + 1 < ${most}; ${counter} += 2) {`,
      ...this.lines,
      ...this.scatters(),
      '}',
      ...this.after,
    ];
    return { text: text.join('\n'), counter };
  }

  protected override isCarried(name: string): boolean {
    const changes = (node: ts.Node): boolean =>
      (ts.isBinaryExpression(node) &&
        isAssignment(node.operatorToken.kind) &&
        stripped(node.left).getText() === name) ||
      ((ts.isPostfixUnaryExpression(node) || ts.isPrefixUnaryExpression(node)) &&
        counts.includes(node.operator) &&
        node.operand.getText() === name) ||
      ts.forEachChild(node, changes) === true;
    return changes(this.loop.statement);
  }

  protected override isWritten(column: ts.Expression): boolean {
    const name = column.getText();
    const writes = (node: ts.Node): boolean =>
      (ts.isBinaryExpression(node) &&
        isAssignment(node.operatorToken.kind) &&
        ts.isElementAccessExpression(stripped(node.left)) &&
        (stripped(node.left) as ts.ElementAccessExpression).expression.getText() === name) ||
      ts.forEachChild(node, writes) === true;
    return writes(this.loop.statement);
  }

  protected override carry(...[node, place]: Carried): void {
    const name = stripped(node.left).getText();
    const { kind } = node.operatorToken;
    const value = stripped(node.right);
    if (kind === ts.SyntaxKind.PlusEqualsToken && place.mask === null) this.add(name, node.right, place);
    else if (
      kind === ts.SyntaxKind.EqualsToken &&
      place.mask !== null &&
      value.kind === ts.SyntaxKind.TrueKeyword
    )
      this.lines.push(`if (v128.any_true(${place.mask})) ${name} = true;`);
    else if (kind === ts.SyntaxKind.EqualsToken && place.mask === null && ts.isConditionalExpression(value))
      this.worst(name, value, place);
    else throw new Refusal(`${node.getText()} hands something on from turn to turn`);
  }

  /** A sum takes its terms in the order of the turns. */
  private add(name: string, term: ts.Expression, { scope }: Carried[1]): void {
    const text = this.preamble.fresh('t');
    this.lines.push(`const ${text} = ${asNumbers(this.value(term, scope))};`);
    for (const lane of [0, 1]) this.lines.push(`${name} += f64x2.extract_lane(${text}, ${lane});`);
  }

  /** `worst = x > worst ? x : worst`, or the other way round: the order does not matter, each lane has its own. */
  private worst(
    name: string,
    { condition, whenTrue, whenFalse }: ts.ConditionalExpression,
    place: Carried[1],
  ): void {
    const asked = stripped(condition);
    const isWorst =
      ts.isBinaryExpression(asked) &&
      asked.left.getText() === whenTrue.getText() &&
      asked.right.getText() === name &&
      whenFalse.getText() === name &&
      typeOf(this.reach, asked.right) === 'f64';
    if (!isWorst) throw new Refusal(`${name} is carried from turn to turn`);
    const how = asked.operatorToken.kind === ts.SyntaxKind.GreaterThanToken ? 'pmax' : 'pmin';
    const value = this.value(whenTrue, place.scope);
    if (!isPair(value)) throw new Refusal(`${name} is the same in every turn`);
    const text = this.preamble.fresh('v');
    this.before.push(`let ${text}: v128 = f64x2.splat(${name});`);
    this.lines.push(`${text} = f64x2.${how}(${text}, ${value.text});`);
    const sign = how === 'pmax' ? '>' : '<';
    for (const lane of [0, 1]) {
      const one = `f64x2.extract_lane(${text}, ${lane})`;
      this.after.push(`${name} = ${one} ${sign} ${name} ? ${one} : ${name};`);
    }
  }
}

/** `for (let k = first; k < count; k++)`, whose count no turn changes. */
function countOf({ initializer, condition, incrementor }: ts.ForStatement): Counted {
  if (
    initializer !== undefined &&
    ts.isVariableDeclarationList(initializer) &&
    condition !== undefined &&
    ts.isBinaryExpression(condition) &&
    condition.operatorToken.kind === ts.SyntaxKind.LessThanToken &&
    incrementor !== undefined &&
    ts.isPostfixUnaryExpression(incrementor)
  ) {
    const [declared] = initializer.declarations;
    if (
      declared?.initializer !== undefined &&
      incrementor.operator === ts.SyntaxKind.PlusPlusToken &&
      stripped(condition.right).kind !== ts.SyntaxKind.NumericLiteral
    )
      return {
        counter: declared.name.getText(),
        first: declared.initializer.getText(),
        most: condition.right.getText(),
      };
  }
  throw new Refusal('no loop over units');
}
