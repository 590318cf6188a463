/**
 * What the compiled kernel is made of: from the exported functions of one module, every function, method, field and
 * constant that they reach. All else of those files (constructors, names, what only a settled start needs) stays out.
 */
import { relative } from 'node:path';
import ts from 'typescript';

type Structure = ts.ClassDeclaration | ts.InterfaceDeclaration;
export type Field = ts.PropertyDeclaration | ts.PropertySignature;

export class Reach {
  readonly functions = new Set<ts.FunctionDeclaration>();
  readonly constants = new Set<ts.VariableDeclaration>();
  readonly methods = new Map<Structure, Set<ts.MethodDeclaration>>();
  readonly fields = new Map<Structure, Set<Field>>();
  readonly entry: ts.SourceFile;
  readonly checker: ts.TypeChecker;

  constructor(program: ts.Program, entry: string) {
    this.checker = program.getTypeChecker();
    const file = program.getSourceFile(entry);
    if (file === undefined) throw new RangeError(`no module ${entry}`);
    this.entry = file;
    for (const statement of file.statements) if (ts.isFunctionDeclaration(statement)) this.call(statement);
  }

  /** Fields of a structure that are reached, in the order in which they are declared: its layout in the memory. */
  fieldsOf(structure: Structure): Field[] {
    const reached = this.fields.get(structure) ?? new Set();
    const members: readonly ts.Node[] = structure.members;
    return members.filter((member): member is Field => reached.has(member as Field));
  }

  /** Every file that something reached stands in, from the working folder. */
  sources(): readonly string[] {
    const reached = [...this.functions, ...this.constants, ...this.fields.keys()];
    return [...new Set(reached.map((node) => relative('.', node.getSourceFile().fileName)))].sort();
  }

  /** What a name in an expression, a type or a pattern stands for. */
  declarationOf(name: ts.Node): ts.Declaration | undefined {
    let symbol = this.checker.getSymbolAtLocation(name);
    if (symbol !== undefined && symbol.flags & ts.SymbolFlags.Alias)
      symbol = this.checker.getAliasedSymbol(symbol);
    return symbol?.declarations?.[0];
  }

  /** The property that one name of `const { a, b } = …` stands for. */
  propertyOf(element: ts.BindingElement): ts.Declaration | undefined {
    const name = element.propertyName ?? element.name;
    const type = this.checker.getTypeAtLocation(element.parent);
    return type.getProperty(name.getText())?.declarations?.[0];
  }

  private structure(of: Structure): void {
    if (this.fields.has(of)) return;
    this.fields.set(of, new Set());
    this.methods.set(of, new Set());
  }

  private call(made: ts.FunctionDeclaration | ts.MethodDeclaration): void {
    if (ts.isFunctionDeclaration(made)) {
      if (this.functions.has(made)) return;
      this.functions.add(made);
    } else {
      const of = made.parent as ts.ClassDeclaration;
      this.structure(of);
      if (this.methods.get(of)!.has(made)) return;
      this.methods.get(of)!.add(made);
    }
    this.walk(made);
  }

  private read(field: Field): void {
    const of = field.parent as Structure;
    this.structure(of);
    if (this.fields.get(of)!.has(field)) return;
    this.fields.get(of)!.add(field);
    if (field.type !== undefined) this.walk(field.type);
  }

  private readonly walk = (node: ts.Node): void => {
    if (ts.isBindingElement(node)) this.reach(this.propertyOf(node));
    else if (ts.isIdentifier(node)) this.reach(this.declarationOf(node));
    ts.forEachChild(node, this.walk);
  };

  private reach(to: ts.Declaration | undefined): void {
    if (to === undefined || to.getSourceFile().isDeclarationFile) return;
    if (ts.isFunctionDeclaration(to) || ts.isMethodDeclaration(to)) this.call(to);
    else if (ts.isPropertyDeclaration(to) || ts.isPropertySignature(to)) this.read(to);
    else if (ts.isClassDeclaration(to) || ts.isInterfaceDeclaration(to)) this.structure(to);
    else if (ts.isVariableDeclaration(to) && ts.isSourceFile(to.parent.parent.parent)) {
      if (to.initializer !== undefined && !ts.isObjectLiteralExpression(stripped(to.initializer)))
        this.constants.add(to);
    }
  }
}

/** An expression without what only the type checker sees. */
export function stripped(expression: ts.Expression): ts.Expression {
  return ts.isAsExpression(expression) ||
    ts.isNonNullExpression(expression) ||
    ts.isParenthesizedExpression(expression)
    ? stripped(expression.expression)
    : expression;
}
