/**
 * The page of what the library offers, made of the docstrings beside the code: every export of its two entries, functions with
 * their signatures, types with their fields.
 */
import { relative } from 'node:path';
import ts from 'typescript';
import { docOf, type Exported, exportsOf, type Member, membersOf, sourceOf } from './declared.ts';

const folder = 'src/library';

/** Where the page lies. */
export const apiPagePath: string = `${folder}/api.md`;

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

function memberLine({ text, doc }: Member): string {
  return `- \`${text}\`${doc === '' ? '' : `: ${doc}`}`;
}

function sectionOf({ name, file, node }: Exported): string {
  const signature = signatureOf(node);
  const isOwn = file.startsWith(`${folder}/`);
  const from = isOwn ? [] : [`Declared in [${relative('src', file)}](${relative(folder, file)}).`];
  return [
    `### ${name}`,
    ...(signature === '' ? [] : [`\`\`\`ts\n${signature}\n\`\`\``]),
    ...[docOf(node)].filter((doc) => doc !== ''),
    ...(signature === '' ? [membersOf(node).map(memberLine).join('\n')].filter((list) => list !== '') : []),
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
