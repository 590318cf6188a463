/** What sources declare, read by the compiler's own parser: exports, their docstrings, the members of an interface and of what it extends. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import ts from 'typescript';

/** A declaration, under the name by which it is exported. */
export interface Exported {
  readonly name: string;
  /** The file that declares it, and the declaration. */
  readonly file: string;
  readonly node: ts.Declaration;
}

const parsed = new Map<string, ts.SourceFile>();

export function sourceOf(file: string): ts.SourceFile {
  const source =
    parsed.get(file) ?? ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.ES2023, true);
  parsed.set(file, source);
  return source;
}

/** What a file exports, whatever file declares it. */
export function exportsOf(file: string): Exported[] {
  return sourceOf(file).statements.flatMap((statement): Exported[] => {
    if (ts.isExportDeclaration(statement)) return passedOn(file, statement);
    if (!isExported(statement)) return [];
    if (ts.isVariableStatement(statement))
      return statement.declarationList.declarations.map((node) => ({
        name: node.name.getText(),
        file,
        node,
      }));
    return isNamed(statement) ? [{ name: statement.name?.getText() ?? '', file, node: statement }] : [];
  });
}

function isExported(statement: ts.Statement): boolean {
  const modifiers = ts.canHaveModifiers(statement) ? ts.getModifiers(statement) : undefined;
  return modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword) === true;
}

function isNamed(
  node: ts.Statement,
): node is ts.FunctionDeclaration | ts.ClassDeclaration | ts.InterfaceDeclaration | ts.TypeAliasDeclaration {
  return (
    ts.isFunctionDeclaration(node) ||
    ts.isClassDeclaration(node) ||
    ts.isInterfaceDeclaration(node) ||
    ts.isTypeAliasDeclaration(node)
  );
}

function passedOn(file: string, { moduleSpecifier, exportClause }: ts.ExportDeclaration): Exported[] {
  const target = moduleSpecifier === undefined ? file : besides(file, moduleSpecifier);
  if (exportClause === undefined || !ts.isNamedExports(exportClause)) return exportsOf(target);
  const declared = exportsOf(target);
  return exportClause.elements.map(({ name, propertyName }) => {
    const from = (propertyName ?? name).getText();
    const found = declared.find((one) => one.name === from);
    if (found === undefined) throw new Error(`${file} exports ${from}, which ${target} does not declare`);
    return { ...found, name: name.getText() };
  });
}

/** The words of a docstring, in one line. */
export function docOf(node: ts.Node): string {
  const holder = ts.isVariableDeclaration(node) ? node.parent.parent : node;
  const docs = ts.getJSDocCommentsAndTags(holder).filter(ts.isJSDoc);
  const text = docs.at(-1)?.comment;
  return (typeof text === 'string' ? text : '').replaceAll(/\s*\n\s*/g, ' ').trim();
}

/** One member of an interface or a class. */
export interface Member {
  readonly name: string;
  /** As it is declared. */
  readonly text: string;
  readonly doc: string;
}

/** Members of an interface or a class, those of what it extends first. */
export function membersOf(node: ts.Declaration): Member[] {
  if (!ts.isInterfaceDeclaration(node) && !ts.isClassDeclaration(node)) return [];
  const bases = (node.heritageClauses ?? []).flatMap(({ types }) => types.map(inherited));
  const own = node.members
    .filter((member) => !ts.isConstructorDeclaration(member))
    .map((member) => ({
      name: member.name?.getText() ?? '',
      text: member
        .getText()
        .replace(/^readonly /, '')
        .replace(/;$/, '')
        .replaceAll(/\s+/g, ' '),
      doc: docOf(member),
    }));
  return [...bases.flat(), ...own];
}

/** Members that a clause such as `extends Pick<Scenario, 'seed'>` brings along; none of what a package declares. */
function inherited({
  expression,
  typeArguments = ts.factory.createNodeArray(),
}: ts.ExpressionWithTypeArguments): Member[] {
  const name = expression.getText();
  const [of, chosen] = typeArguments;
  if (name !== 'Pick' || of === undefined || chosen === undefined) return membersNamed(name, expression);
  const names = new Set([...chosen.getText().matchAll(/'(\w+)'/g)].map(([, word]) => word!));
  return membersNamed(of.getText(), expression).filter((member) => names.has(member.name));
}

/** Members of what a name means at a place. */
function membersNamed(name: string, at: ts.Node): Member[] {
  const source = at.getSourceFile();
  const here = source.statements.find((one) => isNamed(one) && one.name?.text === name);
  if (here !== undefined && isNamed(here)) return membersOf(here);
  const target = source.statements
    .filter(ts.isImportDeclaration)
    .find(({ importClause, moduleSpecifier }) => {
      const bindings = importClause?.namedBindings;
      return (
        bindings !== undefined &&
        ts.isNamedImports(bindings) &&
        bindings.elements.some((element) => element.name.text === name) &&
        ts.isStringLiteral(moduleSpecifier) &&
        moduleSpecifier.text.startsWith('.')
      );
    });
  return target === undefined ? [] : declared(besides(source.fileName, target.moduleSpecifier), name);
}

/** Members of what a file exports by this name. */
export function declared(file: string, name: string): Member[] {
  const found = exportsOf(file).find((one) => one.name === name);
  if (found === undefined) throw new Error(`${file} does not export ${name}`);
  return membersOf(found.node);
}

function besides(file: string, specifier: ts.Expression): string {
  return join(dirname(file), ts.isStringLiteral(specifier) ? specifier.text : '');
}
