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
  /** Those of them that the module gives out, its own or of others. */
  readonly given = new Set<ts.FunctionDeclaration>();
  readonly constants = new Set<ts.VariableDeclaration>();
  readonly methods = new Map<Structure, Set<ts.MethodDeclaration>>();
  readonly fields = new Map<Structure, Set<Field>>();
  /** Lists of structures of different kinds, by the name of their type: the structures in their order. */
  readonly lists = new Map<string, readonly Structure[]>();
  private readonly listDeclarations = new Set<ts.Declaration>();
  readonly entry: ts.SourceFile;
  readonly checker: ts.TypeChecker;

  constructor(program: ts.Program, entry: string) {
    this.checker = program.getTypeChecker();
    const file = program.getSourceFile(entry);
    if (file === undefined) throw new RangeError(`no module ${entry}`);
    this.entry = file;
    const module = this.checker.getSymbolAtLocation(file);
    for (const symbol of module === undefined ? [] : this.checker.getExportsOfModule(module)) {
      const isAlias = (symbol.flags & ts.SymbolFlags.Alias) !== 0;
      const to = (isAlias ? this.checker.getAliasedSymbol(symbol) : symbol).declarations?.[0];
      if (to === undefined || !ts.isFunctionDeclaration(to)) continue;
      this.given.add(to);
      this.call(to);
    }
  }

  /** Fields of a structure that are reached, in the order in which they are declared: its layout in the memory. */
  fieldsOf(structure: Structure): Field[] {
    const reached = this.fields.get(structure) ?? new Set();
    return this.membersOf(structure).filter((member): member is Field => reached.has(member as Field));
  }

  /** Members of a structure: what it inherits, then its own. */
  private membersOf(structure: Structure): readonly ts.Node[] {
    const bases = (structure.heritageClauses ?? [])
      .filter(({ token }) => token === ts.SyntaxKind.ExtendsKeyword)
      .flatMap(({ types }) => types.flatMap((type) => structuresOf(this.checker.getTypeAtLocation(type))));
    return [...bases.flatMap((base) => this.membersOf(base)), ...structure.members];
  }

  /** The module that was asked for and every file that something reached stands in, from the working folder. */
  sources(): readonly string[] {
    const methods = [...this.methods.values()].flatMap((all) => [...all]);
    const reached = [
      ...this.functions,
      ...this.constants,
      ...this.fields.keys(),
      ...methods,
      ...this.listDeclarations,
    ];
    const files = [this.entry, ...reached.map((node) => node.getSourceFile())];
    return [...new Set(files.map(({ fileName }) => relative('.', fileName)))].sort();
  }

  /** What a name in an expression, a type or a pattern stands for. */
  declarationOf(name: ts.Node): ts.Declaration | undefined {
    let symbol = this.checker.getSymbolAtLocation(name);
    if (symbol !== undefined && symbol.flags & ts.SymbolFlags.Alias)
      symbol = this.checker.getAliasedSymbol(symbol);
    return symbol?.declarations?.[0];
  }

  private structure(of: Structure): void {
    if (this.fields.has(of)) return;
    this.fields.set(of, new Set());
    this.methods.set(of, new Set());
  }

  private call(made: ts.FunctionDeclaration): void {
    if (this.functions.has(made)) return;
    this.functions.add(made);
    this.walk(made);
  }

  /** A method of `of`, its own or inherited: an inherited one is written once more for each that inherits it. */
  private method(made: ts.MethodDeclaration, of: Structure): void {
    this.structure(of);
    if (this.methods.get(of)!.has(made)) return;
    this.methods.get(of)!.add(made);
    this.walk(made);
  }

  private read(field: Field, of: Structure): void {
    this.structure(of);
    if (this.fields.get(of)!.has(field)) return;
    this.fields.get(of)!.add(field);
    if (field.type !== undefined) this.walk(field.type);
  }

  /** The structures of a list whose members are of different kinds (a tuple); null where it is none. */
  listOf(type: ts.Type): readonly Structure[] | null {
    if (!this.checker.isTupleType(type)) return null;
    return this.checker.getTypeArguments(type as ts.TypeReference).flatMap((of) => structuresOf(of));
  }

  /** A named list becomes a structure of its own, one field for each member. */
  private list(name: ts.TypeReferenceNode): void {
    const members = this.listOf(this.checker.getTypeFromTypeNode(name));
    if (members === null) return;
    this.lists.set(name.getText(), members);
    this.listDeclarations.add(this.declarationOf(name.typeName)!);
    for (const member of members) this.structure(member);
  }

  /** A member by its name: of the one structure that it is asked of, or of each that a list may hold. */
  private member(of: ts.Node, name: string): boolean {
    const owners = structuresOf(this.checker.getTypeAtLocation(of));
    for (const owner of owners) {
      const { symbol } = this.checker.getTypeAtLocation(owner);
      const type = this.checker.getDeclaredTypeOfSymbol(symbol);
      this.reach(type.getProperty(name)?.declarations?.[0], owner);
    }
    return owners.length > 0;
  }

  private readonly walk = (node: ts.Node): void => {
    if (ts.isPropertyAccessExpression(node) && this.member(node.expression, node.name.text)) {
      this.walk(node.expression);
      return;
    }
    if (ts.isBindingElement(node)) this.member(node.parent, (node.propertyName ?? node.name).getText());
    else if (ts.isTypeReferenceNode(node)) this.list(node);
    if (ts.isIdentifier(node)) this.reach(this.declarationOf(node));
    ts.forEachChild(node, this.walk);
  };

  /** `owner`: the structure that a member was asked of, where it may have inherited it. */
  private reach(to: ts.Declaration | undefined, owner?: Structure): void {
    if (to === undefined || to.getSourceFile().isDeclarationFile) return;
    if (ts.isFunctionDeclaration(to)) this.call(to);
    else if (ts.isMethodDeclaration(to)) this.method(to, owner ?? (to.parent as Structure));
    else if (ts.isPropertyDeclaration(to) || ts.isPropertySignature(to))
      this.read(to, owner ?? (to.parent as Structure));
    else if (ts.isClassDeclaration(to) || ts.isInterfaceDeclaration(to)) this.structure(to);
    else if (ts.isVariableDeclaration(to) && ts.isSourceFile(to.parent.parent.parent)) {
      if (to.initializer !== undefined && !ts.isObjectLiteralExpression(stripped(to.initializer)))
        this.constants.add(to);
    }
  }
}

/** The classes and interfaces that a type is made of. */
function structuresOf(type: ts.Type): Structure[] {
  const all = type.isUnion() ? type.types : [type];
  return all.flatMap((one) => {
    const declared = one.symbol?.declarations?.[0];
    const isStructure =
      declared !== undefined && (ts.isClassDeclaration(declared) || ts.isInterfaceDeclaration(declared));
    return isStructure && !declared.getSourceFile().isDeclarationFile ? [declared] : [];
  });
}

/** An expression without what only the type checker sees. */
export function stripped(expression: ts.Expression): ts.Expression {
  return ts.isAsExpression(expression) ||
    ts.isNonNullExpression(expression) ||
    ts.isParenthesizedExpression(expression)
    ? stripped(expression.expression)
    : expression;
}
