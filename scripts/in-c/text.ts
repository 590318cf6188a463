/**
 * The kernel's text as gcc takes it: the same structures, functions and order of operations, without the two lanes, which a
 * compiler of C finds by itself or not. It is C but for what names a member of a structure and a place of a column, which
 * C++ has words for and g++ makes the same of. Names of places in the memory are offsets from its beginning there as here, so that
 * the memory of a running cabinet can be handed over as it is.
 */
import type { Network } from '../../src/network/network.ts';

export type Solved = Pick<Network, 'ordering' | 'currents'>;

const types: Readonly<Record<string, string>> = {
  i32: 'int',
  f64: 'double',
  bool: 'bool',
  void: 'void',
  F64s: 'Column<double>',
  I32s: 'Column<int>',
  U8s: 'Column<unsigned char>',
};

/** A structure is known by where it stands. */
const typed = (name: string): string => types[name] ?? `At<${name}>`;

const head = `#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
static unsigned char *M;
template <class T> struct At { unsigned at; T *operator->() const { return (T *)(M + at); } };
template <class T> struct Column { unsigned at; T &operator[](int k) const { return ((T *)(M + at))[k]; } };
static inline void copy(Column<double> to, Column<double> from, int count) { memmove(&to[0], &from[0], count * 8); }
`;

/** Parts of a list at its outer commas. */
function parts(list: string): string[] {
  const found = [''];
  let depth = 0;
  for (const letter of list) {
    if ('(['.includes(letter)) depth++;
    if (')]'.includes(letter)) depth--;
    if (letter === ',' && depth === 0) found.push('');
    else found[found.length - 1] += letter;
  }
  return found.map((part) => part.trim()).filter((part) => part !== '');
}

function parameters(list: string): string {
  return parts(list)
    .map((part) => part.split(': '))
    .map(([name, type]) => `${typed(type!)} ${name}`)
    .join(', ');
}

/** `a: i32 = 0, b = c` as declarations, a line each; what has no type has that of its value. */
function declared(list: string): string {
  return parts(list)
    .map((part) => {
      const [, name, type, value] = /^(\w+)(?:: (\w+))?(?: = ([\s\S]*))?$/.exec(part)!;
      return `${type === undefined ? 'auto' : typed(type)} ${name}${value === undefined ? '' : ` = ${value}`};`;
    })
    .join(' ');
}

function body(text: string): string {
  return text
    .replace(/\bfor \(let ([^;]+);/g, (_, list: string) => `for (${declared(list)}`)
    .replace(/\b(?:let|const) ([^;]+);/g, (_, list: string) => declared(list))
    .replace(/<(f64|i32)>/g, (_, type: string) => `(${types[type]})`)
    .replace(/\bNumber\.MAX_VALUE/g, 'DBL_MAX')
    .replace(/\bMath\.(abs|sqrt|floor|ceil)\b/g, (_, name: string) => (name === 'abs' ? 'fabs' : name))
    .replace(/(===|!==)/g, (sign) => sign.slice(0, 2))
    .replace(/([A-Za-z_)\]])\.(?=[A-Za-z_])/g, '$1->');
}

const call = /^(?:export )?(?:function )?(\w+)\((.*)\): (\w+) \{( \})?$/;

/** The solve of a network, every operation of its sums and sweeps in a row (`nodal/written-out.ts`). */
function solveInC({ ordering, currents }: Solved): string {
  const { count, node, sweeps } = ordering;
  const { start, place } = currents.joints;
  const met = (n: number): string =>
    [
      '0.0',
      ...Array.from(place.subarray(start[n]!, start[n + 1]!), (unit) =>
        unit < 0 ? `- i[${-1 - unit}]` : `+ i[${unit}]`,
      ),
    ].join(' ');
  const places = Array.from({ length: count }, (_, j) => j);
  const operations = Array.from({ length: sweeps.count }, (_, k) => {
    const [target, entry, source] = [sweeps.target, sweeps.entry, sweeps.source].map((column) => column[k]!);
    return `y${target} -= l[${entry}] * y${source};`;
  });
  return [
    'static inline void solveWrittenOut(const NodeVoltages *, Column<double> to, At<NodalMatrix> matrix, Column<double> from) {',
    'double *v = &to[0], *i = &from[0], *d = &matrix->d[0], *l = &matrix->l[0];',
    ...places.map((j) => `double y${j} = ${met(node[j]!)};`),
    ...operations.slice(0, sweeps.forwardCount),
    ...places.map((j) => `y${j} *= d[${j}];`),
    ...operations.slice(sweeps.forwardCount),
    ...places.map((j) => `v[${node[j]!}] = y${j};`),
    '}',
  ].join('\n');
}

/** The kernel in C, made of its text in AssemblyScript (`translate`) written without lanes. */
export function inC(text: string, solved: Solved): string {
  const lines = text
    .split('\n')
    .filter((line) => !line.startsWith('//'))
    .map((line) => line.replace(/^@inline /, ''));
  const names: string[] = [];
  const structures: string[] = [];
  const prototypes: string[] = [];
  const bodies: string[] = [];
  const constants: string[] = [];
  let within: string | null = null;
  for (let at = 0; at < lines.length; at++) {
    const line = lines[at]!;
    const opened = /^@unmanaged @final class (\w+) \{$/.exec(line)?.[1];
    const made = call.exec(line);
    const constant = /^const (\w+): (\w+) = (.*);$/.exec(line);
    if (opened !== undefined) {
      // Columns are those of the head.
      if (opened in types) while (lines[at] !== '}') at++;
      else {
        within = opened;
        names.push(within);
        structures.push(`struct ${within} {`);
      }
    } else if (line === '}') {
      structures.push('};');
      within = null;
    } else if (made !== null) {
      const [, name, list, type, isEmpty] = made;
      const from = at + 1;
      while (isEmpty === undefined && lines[at] !== '}') at++;
      const of = within === null ? '' : `${within}::`;
      const signature = (prefix: string): string => `${typed(type!)} ${prefix}${name}(${parameters(list!)})`;
      (within === null ? prototypes : structures).push(
        `${within === null ? 'static ' : ''}inline ${signature('')};`,
      );
      bodies.push(`${within === null ? 'static ' : ''}inline ${signature(of)} {`);
      bodies.push(body(lines.slice(from, at).join('\n')), '}');
    } else if (within !== null && /^\w+: \w+;$/.test(line)) {
      const [name, type] = line.slice(0, -1).split(': ');
      structures.push(`${typed(type!)} ${name};`);
    } else if (constant !== null)
      constants.push(`static const ${typed(constant[2]!)} ${constant[1]} = ${constant[3]};`);
  }
  const forward = names.map((name) => `struct ${name};`);
  return [head, ...forward, ...constants, ...structures, ...prototypes, solveInC(solved), ...bodies].join(
    '\n',
  );
}
