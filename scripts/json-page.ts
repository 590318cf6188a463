/** The page of what every command prints with `--json`, made of the types beside the code. */
import { commandNames } from '../src/cli/commands.ts';
import { declared, type Member } from './declared.ts';

/** Where the page lies. */
export const jsonPagePath = 'src/cli/json.md';

const study = (name: string, file = 'report'): readonly [string, string] => [
  `src/studies/${name}/${file}.ts`,
  `${name[0]!.toUpperCase()}${name.slice(1)}Report`,
];

/** The type of each command's document, and the file that declares it. */
const documents: Readonly<Record<string, readonly [file: string, type: string]>> = {
  new: ['src/cli/commands/new.ts', 'NewDocument'],
  run: ['src/analysis/judge/report.ts', 'Report'],
  check: ['src/cli/commands/check.ts', 'CheckDocument'],
  explain: ['src/cli/commands/explain.ts', 'ExplainDocument'],
  trace: ['src/cli/commands/trace.ts', 'TraceDocument'],
  review: ['src/cli/commands/review.ts', 'ReviewDocument'],
  view: ['src/cli/commands/view.ts', 'ViewDocument'],
  verify: ['src/bundle/verification.ts', 'Verification'],
  export: ['src/cli/commands/export.ts', 'ExportDocument'],
  size: study('size'),
  designs: study('designs'),
  rating: study('rating'),
  matrix: study('matrix'),
  spread: study('spread'),
  duty: study('duty'),
  compare: ['src/studies/compare/compare.ts', 'Comparison'],
  gains: study('gains'),
  response: study('response'),
  embed: ['src/cli/commands/embed.ts', 'EmbedDocument'],
  fit: study('fit', 'fit-report'),
};

/** Keys of the document that a command prints; those with a question mark may be missing. */
export function jsonKeys(command: string): Member[] {
  return declared(...documents[command]!);
}

/** The page as it should be. */
export function jsonPage(): string {
  const sections = commandNames.map((name) => {
    const rows = jsonKeys(name).map(({ text, doc }) => {
      const cut = text.indexOf(':');
      const type = text
        .slice(cut + 1)
        .trim()
        .replaceAll('readonly ', '');
      return `| \`${text.slice(0, cut)}\` | \`${type.replaceAll('|', '\\|')}\` | ${doc.replaceAll('|', '\\|')} |`;
    });
    const [file] = documents[name]!;
    return `## ${name}\n\n| key | type | |\n|---|---|---|\n${rows.join('\n')}\n\nTypes: \`${file}\`.\n`;
  });
  return `<!-- written by: npm run -s check:api, from the types beside the code -->

# What commands print with --json

One document on standard output, numbers in SI with the unit in the key, \`null\` where there is no number. What was refused is
one document as well, a malformed command line (\`file\` is then \`command line\`) and an internal error included:
\`schema_version\` and \`problems\`, each with \`severity\`, \`file\`, \`line\`, \`column\`, \`path\`, \`found\`, \`expected\` and
\`mend\`. What was stopped prints none. \`schema_version\` rises when a key goes or changes its meaning. How a report of a run is read:
[report](../analysis/judge/report.md).

${sections.join('\n')}`;
}
