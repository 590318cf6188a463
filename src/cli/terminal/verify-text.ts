/** What `verify` found, on one screen. */
import type { FileDifferences } from '../../bundle/differences.ts';
import type { Build } from '../../bundle/format.ts';
import type { Verification } from '../../bundle/verification.ts';
import { alignColumns, wrap } from './columns.ts';
import type { Paint } from './paint.ts';

const width = 110;
const indent = '           ';

/** Another build is named first: what follows may then be rightly so. */
export function verificationText(verification: Verification, quiet: boolean, paint: Paint): string {
  const { bundle, same, build, files, request, inputs_count, summary, not_compared } = verification;
  const differing = files.filter(({ differences_count }) => differences_count > 0);
  const alike = files.filter(({ differences_count }) => differences_count === 0);
  const head = same
    ? `${paint('good', 'SAME')}  ${bundle} run again from what it holds: report, channels and streams bit for bit`
    : `${paint('bad', 'DIFFERS')}  ${bundle} run again from what it holds: ${namesOf(differing)} ${differing.length === 1 ? 'is' : 'are'} not the same`;
  const other = build.same ? [] : [paint('open', buildWords(build.kept, build.here))];
  if (quiet) return [...other, head].join('\n');
  return [
    ...other.flatMap((words) => wrap(words, width, indent)),
    head,
    ...wrap(
      `made from  ${request.scenario} and ${counted(inputs_count - 1, 'other file')}, ${counted(request.changes.length, 'change')}, judged for ${request.judged_on}`,
      width,
      indent,
    ),
    ...wrap(`run again  ${summary}`, width, indent),
    ...(alike.length === 0 ? [] : wrap(`same       ${namesOf(alike)}`, width, indent)),
    ...(not_compared.length === 0
      ? []
      : wrap(`not a part ${not_compared.join(', ')}: nothing is said of it`, width, indent)),
    ...differing.flatMap((file) => differenceLines(file, paint)),
  ].join('\n');
}

function buildWords(kept: Build, here: Build): string {
  const words = ({ source_sha256, node_version }: Build): string =>
    `${source_sha256.slice(0, 12)} on Node ${node_version}`;
  return `another build made it: ${words(kept)}, here ${words(here)}; results may rightly differ`;
}

function differenceLines({ name, differences_count, first }: FileDifferences, paint: Paint): string[] {
  const more = differences_count - first.length;
  return [
    '',
    paint('strong', `${name}: ${counted(differences_count, 'difference')}`),
    ...alignColumns(
      first.map(({ where, kept, again }) => [`  ${where}`, `kept ${kept}`, `again ${again}`]),
    ).map((cells) => cells.join('  ')),
    ...(more > 0 ? [`  … and ${more} more`] : []),
  ];
}

function namesOf(files: readonly FileDifferences[]): string {
  return files.map(({ name }) => name).join(', ');
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}
