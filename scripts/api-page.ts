/**
 * The page of what the library offers, made of the docstrings beside the code: every export of its two entries, functions with
 * their signatures, types with their fields.
 */
import { readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import ts from 'typescript';

const folder = 'src/library';

/** Where the page lies. */
export const apiPagePath: string = `${folder}/api.md`;

interface Exported {
  readonly name: string;
  /** The file that declares it, and the declaration. */
  readonly file: string;
  readonly node: ts.Declaration;
}

const parsed = new Map<string, ts.SourceFile>();

function sourceOf(file: string): ts.SourceFile {
  const source =
    parsed.get(file) ?? ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.ES2023, true);
  parsed.set(file, source);
  return source;
}

/** What a file exports, whatever file declares it. */
function exportsOf(file: string): Exported[] {
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
  const target = join(dirname(file), (moduleSpecifier as ts.StringLiteral).text);
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
function docOf(node: ts.Node): string {
  const holder = ts.isVariableDeclaration(node) ? node.parent.parent : node;
  const docs = ts.getJSDocCommentsAndTags(holder).filter(ts.isJSDoc);
  const text = docs.at(-1)?.comment;
  return (typeof text === 'string' ? text : '').replaceAll(/\s*\n\s*/g, ' ').trim();
}

function signatureOf(node: ts.Declaration): string {
  if (ts.isFunctionDeclaration(node)) {
    const end = node.body?.getStart() ?? node.end;
    return node
      .getText()
      .slice(0, end - node.getStart())
      .replace(/^export (async )?/, '')
      .trim();
  }
  if (ts.isVariableDeclaration(node))
    return `const ${node.name.getText()}: ${node.type?.getText() ?? typeWord(node)}`;
  if (ts.isTypeAliasDeclaration(node)) return node.getText().replace(/^export /, '');
  return '';
}

function typeWord({ initializer }: ts.VariableDeclaration): string {
  return initializer !== undefined && ts.isStringLiteral(initializer) ? 'string' : 'object';
}

function membersOf(node: ts.Declaration): string[] {
  if (!ts.isInterfaceDeclaration(node) && !ts.isClassDeclaration(node)) return [];
  const inherited = (node.heritageClauses ?? [])
    .flatMap(({ types }) => types.map(({ expression }) => expression.getText()))
    .flatMap((name) =>
      node.getSourceFile().statements.filter((one) => isNamed(one) && one.name?.text === name),
    );
  const own = node.members
    .filter((member) => !ts.isConstructorDeclaration(member))
    .map((member) => {
      const text = member
        .getText()
        .replace(/^readonly /, '')
        .replace(/;$/, '')
        .replaceAll(/\s+/g, ' ');
      const doc = docOf(member);
      return `- \`${text}\`${doc === '' ? '' : `: ${doc}`}`;
    });
  return [...inherited.flatMap((base) => (isNamed(base) ? membersOf(base) : [])), ...own];
}

function sectionOf({ name, file, node }: Exported): string {
  const signature = signatureOf(node);
  const isOwn = file.startsWith(`${folder}/`);
  const from = isOwn ? [] : [`Declared in [${relative('src', file)}](${relative(folder, file)}).`];
  return [
    `### ${name}`,
    ...(signature === '' ? [] : [`\`\`\`ts\n${signature}\n\`\`\``]),
    ...[docOf(node)].filter((doc) => doc !== ''),
    ...(signature === '' ? [membersOf(node).join('\n')].filter((list) => list !== '') : []),
    ...from,
  ].join('\n\n');
}

/** What a file says of itself at its head. */
function headOf(file: string): string {
  const text = /^\/\*\*([\s\S]*?)\*\//.exec(sourceOf(file).text)?.[1] ?? '';
  return text.replaceAll(/^\s*\* ?/gm, '').trim();
}

/** The page as it should be. */
export function apiPage(): string {
  const [node, browser] = ['node', 'browser'].map((name) => exportsOf(`${folder}/${name}.ts`)) as [
    Exported[],
    Exported[],
  ];
  const same = (a: Exported, b: Exported): boolean => a.name === b.name && a.node === b.node;
  const shared = node.filter((one) => browser.some((other) => same(one, other)));
  const only = (all: readonly Exported[]): Exported[] =>
    all.filter((one) => !shared.some((other) => same(one, other)));
  const part = (title: string, words: string, all: readonly Exported[]): string =>
    [`## ${title}`, words, ...all.map(sectionOf)].join('\n\n');
  return `${[
    '<!-- written by: npm run -s check:api, from the docstrings in src/library -->',
    '# What the library offers',
    'Examples: [library](library.md).',
    part("In Node, from 'buswake'", headOf(`${folder}/node.ts`), only(node)),
    part("In a browser, from 'buswake/browser'", headOf(`${folder}/browser.ts`), only(browser)),
    part('In both', 'The same in Node and in a browser.', shared),
  ].join('\n\n')}\n`;
}
