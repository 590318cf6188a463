/** The documents of the project and what stands in them: links, commands, blocks. */
import { readdirSync, readFileSync } from 'node:fs';

const rooms = ['models', 'scenarios', 'scripts', 'src', 'tests', 'web'];

/** Every document of the project. */
export const pages = [
  ...readdirSync('.'),
  ...rooms.flatMap((room) =>
    readdirSync(room, { recursive: true, encoding: 'utf8' }).map((name) => `${room}/${name}`),
  ),
].filter((name) => name.endsWith('.md'));

export const textOf = (page: string): string => readFileSync(page, 'utf8');

/** Blocks of one language. */
export function blocks(text: string, language: string): string[] {
  return [...text.matchAll(new RegExp(`\`\`\`${language}\n(.*?)\`\`\``, 'gs'))].map(([, block]) => block!);
}

/** Targets of the links of a page. */
export function links(text: string): string[] {
  return [...text.matchAll(/\]\(([^)\s]+)\)/g)].map(([, target]) => target!);
}

/** The fragment that a heading is reached by. */
function fragmentOf(heading: string): string {
  return heading
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N} _-]/gu, '')
    .replaceAll(' ', '-');
}

export function fragments(text: string): string[] {
  const prose = text.replaceAll(/```[\s\S]*?```/g, '');
  return [...prose.matchAll(/^#+ (.+)$/gm)].map(([, heading]) => fragmentOf(heading!));
}

/** Words of a command line as a shell splits them; what stands behind a # is left out. */
export function words(line: string): string[] {
  const found: string[] = [];
  for (const [, spaced, hash] of line.matchAll(/((?:[^\s"'#]|"[^"]*"|'[^']*')+)|(#.*)/g)) {
    if (hash !== undefined) break;
    found.push(spaced!.replaceAll(/["']/g, ''));
  }
  return found;
}

/** A number that a shell fills in. */
const variable = /\$\(\(.*?\)\)|\$\w+/g;

/** Calls of the command line that a page shows, in its blocks and within its sentences, each as its words. */
export function calls(text: string): string[][] {
  const spans = text
    .replaceAll(/```[\s\S]*?```/g, '')
    .matchAll(/`((?:npm run -s buswake -- |buswake )[^`]+)`/g);
  const lines = [
    ...blocks(text, 'sh').flatMap((block) => block.split('\n')),
    ...[...spans].map(([, span]) => span!),
  ];
  return lines.flatMap((line) => {
    const call = /(?:npm run -s buswake -- |buswake )([^'&|]*(?:'[^']*')?[^'&|]*)/.exec(
      line.replace(/^#.*/, '').replaceAll(variable, '1'),
    );
    return call === null ? [] : [words(call[1]!)];
  });
}
