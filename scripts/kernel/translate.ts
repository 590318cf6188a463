/**
 * The kernel in AssemblyScript, made from the TypeScript that runs without it: one text of all that `Reach` finds, with
 * columns as raw addresses, classes and interfaces as structures in the memory, and their layout beside it.
 *
 * The code it takes: loops, branches, arithmetic, calls of functions and methods, `const { a, b } = object`; numbers are
 * 64-bit floats unless their type says `Int`. A loop over a list of structures of different kinds is written out, once for
 * each. What it does not take fails to compile.
 */
import ts from 'typescript';
import { columnOf, columnText, given } from './columns.ts';
import { inPairs } from './lanes/loop.ts';
import { programOf } from './program.ts';
import { type Field, Reach, stripped } from './reach.ts';
import { typeName } from './types.ts';

/** Fields of one structure, in the order in which they stand: name, and `i32`, `f64`, a column or another structure. */
export type Layout = readonly (readonly [name: string, type: string])[];

export interface Translated {
  readonly text: string;
  readonly layouts: Readonly<Record<string, Layout>>;
  /** Of each function given out, the types of what it is handed. */
  readonly handed: Readonly<Record<string, readonly string[]>>;
  /** Files that any of it stands in, from the working folder. */
  readonly sources: readonly string[];
}

/** Functions that give the same bits everywhere; powers, exponentials and sines do not. */
const exact = ['abs', 'ceil', 'floor', 'max', 'min', 'sqrt'];

const { factory } = ts;
const printer = ts.createPrinter({ removeComments: true });

const named = (name: string): ts.TypeNode => factory.createTypeReferenceNode(name);

/** What a field may be beside another structure. */
const isHeld = (type: string): boolean =>
  type === 'i32' || type === 'f64' || Object.values(columnOf).includes(type);

const isNumber = (node: ts.Expression | undefined): boolean =>
  node !== undefined &&
  (ts.isNumericLiteral(node) || (ts.isPrefixUnaryExpression(node) && ts.isNumericLiteral(node.operand)));

function refuseInexact(node: ts.Node): void {
  const isPower =
    ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.AsteriskAsteriskToken;
  const isOther =
    ts.isPropertyAccessExpression(node) &&
    node.expression.getText() === 'Math' &&
    !exact.includes(node.name.text);
  if (isPower || isOther) throw new Error(`${node.getText()} does not give the same bits everywhere`);
}

/** Reads only: taking it once for each name is the same. */
const isChain = (node: ts.Expression | undefined): boolean =>
  node !== undefined &&
  (ts.isIdentifier(node) ||
    node.kind === ts.SyntaxKind.ThisKeyword ||
    (ts.isPropertyAccessExpression(node) && isChain(node.expression)));

/** What the k-th member of a list is called where the list is a structure. */
const placeOf = (k: number): string => `at${k}`;

/** Text of AssemblyScript as a statement. */
const verbatim = (text: string): ts.Statement =>
  factory.createExpressionStatement(factory.createIdentifier(text));

/** What has no loop is written into its callers: a call would cost more than it does. */
const inlined = '// @ts-ignore: decorator\n@inline ';

function hasLoop(node: ts.Node): boolean {
  return ts.isIterationStatement(node, false) || ts.forEachChild(node, hasLoop) === true;
}

export type Lanes = 'one' | 'two';

class Translator {
  private readonly reach: Reach;
  private readonly lanes: Lanes;

  constructor(reach: Reach, lanes: Lanes) {
    this.reach = reach;
    this.lanes = lanes;
  }

  /** `const { a, b: c } = x` as `const a = x.a, c = x.b`; a number without a type is a float but where it counts loops. */
  private declared(declaration: ts.VariableDeclaration, visit: ts.Visitor): ts.VariableDeclaration[] {
    const { name, initializer, type } = declaration;
    const value = ts.visitNode(initializer, visit, ts.isExpression);
    if (ts.isObjectBindingPattern(name)) {
      if (!isChain(initializer)) throw new Error(`${name.getText()} must be taken from a name or a member`);
      return name.elements.map((element) => {
        const property = (element.propertyName ?? element.name).getText();
        const read = factory.createPropertyAccessExpression(value!, property);
        return factory.createVariableDeclaration(element.name.getText(), undefined, undefined, read);
      });
    }
    const counts = ts.isForStatement(declaration.parent.parent);
    const float = type === undefined && isNumber(initializer) && !counts;
    const as = type !== undefined ? named(typeName(type)) : float ? named('f64') : undefined;
    return [factory.createVariableDeclaration(name.getText(), undefined, as, value)];
  }

  /** `for (const part of list) …` written out: a block for each member, whose kind and so whose methods are known. */
  private writtenOut(loop: ts.ForOfStatement, visit: ts.Visitor): ts.Block {
    const { initializer, expression, statement } = loop;
    const members = this.reach.listOf(this.reach.checker.getTypeAtLocation(expression));
    if (members === null || !isChain(expression) || !ts.isVariableDeclarationList(initializer))
      throw new Error(
        `${expression.getText()} is no list of structures of different kinds, taken from a member`,
      );
    const from = ts.visitNode(expression, visit, ts.isExpression)!;
    const name = initializer.declarations[0]!.name.getText();
    return factory.createBlock(
      members.map((_, k) => {
        const member = factory.createPropertyAccessExpression(from, placeOf(k));
        const declared = factory.createVariableDeclaration(name, undefined, undefined, member);
        return factory.createBlock([
          factory.createVariableStatement(
            undefined,
            factory.createVariableDeclarationList([declared], ts.NodeFlags.Const),
          ),
          ts.visitNode(statement, visit, ts.isStatement)!,
        ]);
      }),
    );
  }

  /** A loop over units: its pairs in two lanes, then as it stands what they have left. */
  private inLanes(loop: ts.ForStatement, visit: ts.Visitor): ts.Block | null {
    const pairs = inPairs(this.reach, loop);
    if (pairs === null) return null;
    const rest = factory.createForStatement(
      undefined,
      ts.visitNode(loop.condition, visit, ts.isExpression),
      ts.visitNode(loop.incrementor, visit, ts.isExpression),
      ts.visitNode(loop.statement, visit, ts.isStatement)!,
    );
    return factory.createBlock([verbatim(pairs.text), rest]);
  }

  /** A member of a table of constants (`mode.linear`) is its number. */
  private constantOf(node: ts.PropertyAccessExpression): ts.Expression | null {
    const to = this.reach.declarationOf(node.name);
    if (to === undefined || !ts.isPropertyAssignment(to)) return null;
    const value = stripped(to.initializer);
    if (!ts.isNumericLiteral(value)) throw new Error(`${node.getText()} is no number`);
    // Made anew: it may stand in another file.
    return factory.createNumericLiteral(value.text);
  }

  private readonly rewritten =
    (context: ts.TransformationContext) =>
    (root: ts.Node): ts.Node => {
      const visit = (node: ts.Node): ts.Node => {
        if (ts.isNonNullExpression(node) || ts.isAsExpression(node)) return visit(node.expression);
        if (ts.isTypeNode(node)) return named(typeName(node));
        if (ts.isVariableDeclarationList(node)) {
          const all = node.declarations.flatMap((declaration) => this.declared(declaration, visit));
          return factory.createVariableDeclarationList(all, node.flags);
        }
        if (ts.isForOfStatement(node)) return this.writtenOut(node, visit);
        if (ts.isForStatement(node) && this.lanes === 'two') {
          const lanes = this.inLanes(node, visit);
          if (lanes !== null) return lanes;
        }
        refuseInexact(node);
        if (ts.isPropertyAccessExpression(node)) {
          const constant = this.constantOf(node);
          if (constant !== null) return constant;
        }
        const made = ts.visitEachChild(node, visit, context);
        // Division is that of floats, also between whole numbers.
        return ts.isBinaryExpression(made) && made.operatorToken.kind === ts.SyntaxKind.SlashToken
          ? factory.createDivide(
              factory.createTypeAssertion(named('f64'), factory.createParenthesizedExpression(made.left)),
              made.right,
            )
          : made;
      };
      return visit(root);
    };

  private print(node: ts.Node): string {
    const { transformed, dispose } = ts.transform(node, [this.rewritten]);
    const text = printer.printNode(ts.EmitHint.Unspecified, transformed[0]!, node.getSourceFile());
    dispose();
    return text;
  }

  /** Name, parameters, result and body of a function or method. */
  private call(made: ts.FunctionDeclaration | ts.MethodDeclaration): string {
    const { name, parameters, type, body } = made;
    const where = `${name!.getText()} in ${made.getSourceFile().fileName}`;
    if (type === undefined || body === undefined) throw new Error(`${where} must say what it returns`);
    const taken = parameters.map((parameter) => {
      if (parameter.type === undefined) throw new Error(`${where} must say what it takes`);
      return `${parameter.name.getText()}: ${typeName(parameter.type)}`;
    });
    const returned = type.kind === ts.SyntaxKind.VoidKeyword ? 'void' : typeName(type);
    return `${name!.getText()}(${taken.join(', ')}): ${returned} ${this.print(body)}`;
  }

  private laidOut(structure: string, field: Field): Layout[number] {
    const name = field.name.getText();
    if (field.type === undefined) throw new Error(`${structure}.${name} must say its type`);
    const type = typeName(field.type);
    const isFixed = ts.getCombinedModifierFlags(field) & ts.ModifierFlags.Readonly;
    if (!isFixed)
      throw new Error(`${structure}.${name} must be readonly: the memory has its value as it was`);
    const isStructure =
      this.reach.lists.has(type) ||
      [...this.reach.fields.keys()].some(({ name: of }) => of!.getText() === type);
    if (!isHeld(type) && !isStructure)
      throw new Error(`${structure}.${name} is a ${type}, which the memory does not hold`);
    return [name, type];
  }

  translate(): Translated {
    const { reach } = this;
    const layouts: Record<string, Layout> = {};
    const texts = [columnText];
    for (const constant of reach.constants) {
      const type = constant.type === undefined ? 'f64' : typeName(constant.type);
      texts.push(`const ${constant.name.getText()}: ${type} = ${this.print(constant.initializer!)};`);
    }
    for (const [structure, methods] of reach.methods) {
      const name = structure.name!.getText();
      if (name in layouts) throw new Error(`two structures are called ${name}`);
      layouts[name] = reach.fieldsOf(structure).map((field) => this.laidOut(name, field));
      const lines = layouts[name].map(([field, type]) => `${field}: ${type};`);
      for (const method of methods) lines.push(`${hasLoop(method) ? '' : inlined}${this.call(method)}`);
      texts.push(`@unmanaged @final class ${name} {\n${lines.join('\n')}\n}`);
    }
    for (const [name, members] of reach.lists) {
      const types = members.map((member) => member.name!.getText());
      layouts[name] = types.map((type, k) => [String(k), type]);
      const lines = types.map((type, k) => `${placeOf(k)}: ${type};`);
      texts.push(`@unmanaged @final class ${name} {\n${lines.join('\n')}\n}`);
    }
    for (const made of reach.functions) {
      const better = given[made.name!.getText()];
      if (better !== undefined) {
        texts.push(better);
        continue;
      }
      const out = reach.given.has(made) ? 'export ' : hasLoop(made) ? '' : inlined;
      texts.push(`${out}function ${this.call(made)}`);
    }
    const handed = Object.fromEntries(
      [...reach.given].map(({ name, parameters }) => [
        name!.getText(),
        parameters.map(({ type }) => typeName(type!)),
      ]),
    );
    return { text: texts.join('\n'), layouts, handed, sources: reach.sources() };
  }
}

/** Translates the functions that the module `entry` exports, and all that they reach; loops over units in two lanes or as they stand. */
export function translate(entry: string, lanes: Lanes = 'two'): Translated {
  return new Translator(new Reach(programOf(entry), entry), lanes).translate();
}
