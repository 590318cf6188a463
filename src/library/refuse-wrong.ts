/** What a program hands over in place of typed words: everything wrong with it is told at once, as of a command line. */
import { BadInput, type Problem } from '../base/problem.ts';
import { isDay } from '../scenario/day.ts';
import { listed, nearestWords } from '../scenario/text/nearest.ts';

/** What an option may be: whether it is, and how it is written. */
interface Kind {
  is(value: unknown): boolean;
  readonly expected: string;
  readonly mend: string;
}

/** One that is written as `{ … }`: a Map or a Date has nothing of its own that would be read. */
const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' &&
  value !== null &&
  [Object.prototype, null].includes(Object.getPrototypeOf(value) as object | null);

const isText = (value: unknown): boolean =>
  typeof value === 'string' && value.trim() !== '' && !value.includes('\0');

function textsBy(what: string, example: string): Kind {
  return {
    is: (value) => isObject(value) && Object.values(value).every(isText),
    expected: `an object of texts by ${what}, none of them empty`,
    mend: `write for example ${example}`,
  };
}

const flag: Kind = {
  is: (value) => typeof value === 'boolean',
  expected: 'true or false',
  mend: 'leave it out, or write true',
};

const call: Kind = {
  is: (value) => typeof value === 'function',
  expected: 'a function',
  mend: 'leave it out, or give a function',
};

const checkOptions = {
  set: textsBy('path', "{ 'trays.capacitance': '130 F' }"),
  files: {
    is: (value) =>
      isObject(value) &&
      Object.values(value).every((held) => typeof held === 'string' || held instanceof Uint8Array),
    expected: 'an object of texts or bytes by path',
    mend: "write for example { 'mine.yaml': text }",
  },
} as const satisfies Readonly<Record<string, Kind>>;

const runOptions = {
  ...checkOptions,
  waive: textsBy('limit, each its reason', "{ trim: 'being retuned' }"),
  on: {
    is: (value) => typeof value === 'string' && isDay(value),
    expected: 'a day as text',
    mend: "write for example '2030-06-30'",
  },
  doubt: flag,
  onProgress: call,
  shouldStop: call,
} as const satisfies Readonly<Record<string, Kind>>;

const studyOptions = {
  set: checkOptions.set,
  workers: {
    is: (value) => Number.isInteger(value) && (value as number) >= 1,
    expected: 'a whole number of threads, at least 1',
    mend: 'leave it out for all cores',
  },
  onProgress: call,
} as const satisfies Readonly<Record<string, Kind>>;

/** Options of each function by name. */
const options = {
  check: checkOptions,
  run: runOptions,
  runInNode: {
    ...runOptions,
    out: { is: isText, expected: 'the path of a folder', mend: "write for example 'out/run'" },
    force: flag,
  },
  study: studyOptions,
  size: { ...studyOptions, vary: textsBy('path, each its values', "{ 'trays.count': '6 to 14' }") },
} as const satisfies Readonly<Record<string, Readonly<Record<string, Kind>>>>;

/** Throws BadInput where a name is no text, or where what is asked has an unknown name or is of another kind. */
export function refuseWrong(of: keyof typeof options, name: unknown, ask: unknown): void {
  const problems = [...nameProblems(name), ...askProblems(options[of], ask)];
  if (problems.length > 0) throw new BadInput(problems);
}

/** Throws BadInput where a path is no text. */
export function refuseNoPath(path: unknown): void {
  const problems = nameProblems(path);
  if (problems.length > 0) throw new BadInput(problems);
}

function nameProblems(name: unknown): Problem[] {
  if (isText(name)) return [];
  return [
    {
      severity: 'error',
      path: 'first argument',
      found: shown(name),
      expected: 'a path, or a name of what comes with the package, as text',
      mend: "write for example 'pulse-train'",
    },
  ];
}

function askProblems(known: Readonly<Record<string, Kind>>, ask: unknown): Problem[] {
  if (!isObject(ask)) {
    const mend = 'leave it out, or write {}';
    const expected = `an object with any of ${listed(Object.keys(known))}`;
    return [{ severity: 'error', path: 'second argument', found: shown(ask), expected, mend }];
  }
  return Object.entries(ask).flatMap(([option, value]): Problem[] => {
    const kind = Object.hasOwn(known, option) ? known[option] : undefined;
    if (kind === undefined) {
      const near = nearestWords(option, Object.keys(known), 1)[0];
      const mend = near === undefined ? 'leave it out' : `did you mean ${near}?`;
      const expected = listed(Object.keys(known));
      return [{ severity: 'error', path: option, found: 'no such option', expected, mend }];
    }
    if (value === undefined || kind.is(value)) return [];
    return [
      { severity: 'error', path: option, found: shown(value), expected: kind.expected, mend: kind.mend },
    ];
  });
}

/** A value in few words, whatever it is. */
function shown(value: unknown): string {
  if (typeof value === 'string') return value === '' ? 'an empty text' : JSON.stringify(value.slice(0, 60));
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'function') return 'a function';
  if (value === undefined) return 'nothing';
  if (typeof value !== 'object' || value === null) return String(value);
  if (!isObject(value)) return `a ${Object.prototype.toString.call(value).slice(8, -1)}`;
  const wrong = Object.entries(value).find(([, held]) => !isText(held));
  return wrong === undefined
    ? 'an object'
    : `${wrong[0]}: ${isObject(wrong[1]) ? 'an object' : shown(wrong[1])}`;
}
