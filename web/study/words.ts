/** Keys of a report as people read them: a limit by its title, a parameter by the words of its path, a channel by its own. */
import type { LimitTitles } from '../../src/studies/limit-titles.ts';
import { pathWords } from '../../src/studies/path-words.ts';
import { channelInText, channelWords } from './channel-words.ts';

export interface Words {
  /** A text with every key in it in words. */
  text(text: string): string;
  /** The words of a key that stands alone; null where it is none. */
  key(text: string): string | null;
}

/** A path in a text: nodes and channels begin with the capital of their unit, files end otherwise and lie in folders. */
const pathInText = /(?<![\w./-])[a-z_]{4,}(?:\.[\w-]{2,})+(?![\w/])/g;
const path = /^[a-z_]{4,}(?:\.[\w-]{2,})+$/;
const file = /\.(?:ya?ml|csv|tsv|txt|json|parquet|html)$/;

/** `titles`: of limits by their ids; none where a report names no limits. */
export function wordsOf(titles: LimitTitles): Words {
  // In a sentence an id without a dash is a word like any other.
  const ids = Object.keys(titles).filter((id) => id.includes('-'));
  const longestFirst = ids.sort((a, b) => b.length - a.length).map(escaped);
  const id =
    ids.length === 0 ? null : new RegExp(`(?<![\\w.-])(?:${longestFirst.join('|')})(?![\\w-]|\\.\\w)`, 'g');
  const titled = (text: string): string =>
    id === null ? text : text.replace(id, (one) => titles[one] ?? one);
  return {
    text: (text) =>
      titled(
        text
          .replace(channelInText, channelWords)
          .replace(pathInText, (one) => (file.test(one) ? one : pathWords(one))),
      ),
    key: (text) => titles[text] ?? alone(text),
  };
}

function alone(text: string): string | null {
  if (path.test(text) && !file.test(text)) return pathWords(text);
  const words = channelWords(text);
  return words === text ? null : words;
}

function escaped(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
}
