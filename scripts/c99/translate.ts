/**
 * A law in C99, made from the TypeScript that the engine runs: a header of structures and a text of functions, without any
 * library. The C does the same additions and products in the same order on 64-bit floats, so it gives the same bits
 * where the compiler keeps to that (`-ffp-contract=off`, no fast mathematics).
 *
 * What it takes: functions that stand by themselves; interfaces of numbers, `Int`, flags and columns; `const`, `let`, `if`,
 * `for`, `return`, `continue`, `?:`; + − × ÷ and comparisons; `Math.round`. Anything else is refused with file and line.
 */
import { basename } from 'node:path';
import ts from 'typescript';
import type { LawInC, Member } from '../../src/embed/law-in-c.ts';
import { type Field, Reach } from '../kernel/reach.ts';
import { nearestWhole, refuseWord } from './beside.ts';
import { expressionText, given } from './expressions.ts';
import { cOf, isColumn, kindOfType, refused } from './kinds.ts';
import { Statements } from './statements.ts';
import { Written } from './written.ts';

type Structure = ts.ClassDeclaration | ts.InterfaceDeclaration;

class Translator {
  private readonly reach: Reach;
  private readonly written: Written;
  private readonly statements: Statements;

  constructor(reach: Reach) {
    this.reach = reach;
    this.written = new Written(reach);
    this.statements = new Statements(reach, (node, kind) => this.taken(node, kind));
  }

  /** A pointer to what `kind` names; constant unless it is written through. */
  private pointer(kind: string, isWritten: boolean): string {
    return `${isWritten ? '' : 'const '}${cOf[kind] ?? kind} *`;
  }

  /** A pointer that a law takes from a member to a name of its own. */
  private taken(node: ts.Node, kind: string): string {
    const to = ts.isBindingElement(node)
      ? this.reach.checker
          .getTypeAtLocation(node.parent)
          .getProperty((node.propertyName ?? node.name).getText())?.declarations?.[0]
      : this.reach.declarationOf(ts.isPropertyAccessExpression(node) ? node.name : node);
    return isColumn(kind)
      ? this.pointer(kind, to !== undefined && this.written.has(to))
      : this.pointer(kind, this.isChanged(kind));
  }

  private isChanged(structure: string): boolean {
    return [...this.reach.fields.keys()].some(
      (of) => of.name!.text === structure && this.written.isChanged(of),
    );
  }

  private declared(name: string, type: ts.TypeNode, of: ts.Declaration): string {
    const kind = kindOfType(type);
    refuseWord(of, name);
    if (isColumn(kind)) return `${this.pointer(kind, this.written.has(of))}${name}`;
    return kind in cOf ? `${cOf[kind]} ${name}` : `${this.pointer(kind, this.isChanged(kind))}${name}`;
  }

  private field(field: Field): string {
    if (field.type === undefined) throw refused(field, 'it must say its type');
    return `${commentOf(field, '  ')}  ${this.declared(field.name.getText(), field.type, field)};`;
  }

  private structure(of: Structure): string {
    if (!ts.isInterfaceDeclaration(of)) throw refused(of, 'a law in C takes interfaces, no classes');
    const fields = this.reach.fieldsOf(of).map((field) => this.field(field));
    return `${commentOf(of, '')}typedef struct {\n${fields.join('\n')}\n} ${of.name.text};`;
  }

  private signature(made: ts.FunctionDeclaration): string {
    if (made.type === undefined || made.name === undefined)
      throw refused(made, 'it must say what it returns');
    const isVoid = made.type.kind === ts.SyntaxKind.VoidKeyword;
    const returned = isVoid ? 'void' : cOf[kindOfType(made.type)];
    if (returned === undefined) throw refused(made.type, 'a law in C returns a number or nothing');
    const taken = made.parameters.map((parameter) => {
      if (parameter.type === undefined) throw refused(parameter, 'it must say its type');
      return this.declared(parameter.name.getText(), parameter.type, parameter);
    });
    return `${returned} ${made.name.text}(${taken.join(', ')})`;
  }

  /** Structures, each after those that it holds. */
  private ordered(): Structure[] {
    const out: Structure[] = [];
    const put = (of: Structure): void => {
      if (out.includes(of)) return;
      for (const field of this.reach.fieldsOf(of)) {
        const held = [...this.reach.fields.keys()].find(({ name }) => name!.text === field.type?.getText());
        if (held !== undefined) put(held);
      }
      out.push(of);
    };
    for (const of of this.reach.fields.keys()) put(of);
    return out;
  }

  translate(entry: string): LawInC {
    const { reach } = this;
    const name = basename(entry, '.ts').replace('-', '_');
    const made = [...reach.functions];
    const isGiven = (one: ts.FunctionDeclaration): boolean => reach.given.has(one);
    const guard = `${name.toUpperCase()}_H`;
    const structures = this.ordered();
    const calls = made.filter(isGiven).map((one) => `${commentOf(one, '')}${this.signature(one)};`);
    const header = [
      commentOfFile(reach.entry),
      `/* Made from ${entry}: do not change it here. */\n`,
      `#ifndef ${guard}\n#define ${guard}\n\n#include <stdbool.h>\n#include <stdint.h>\n`,
      ...structures.map((of) => `${this.structure(of)}\n`),
      ...calls.map((call) => `${call}\n`),
      `#endif\n`,
    ];
    const constants = [...reach.constants].map(
      (one) =>
        `${commentOf(one.parent.parent, '')}static const double ${one.name.getText()} = ${expressionText(reach, one.initializer!)};\n`,
    );
    const own = made.filter((one) => !isGiven(one)).map((one) => `static ${this.signature(one)};`);
    const bodies = made.map(
      (one) =>
        `${isGiven(one) ? '' : `${commentOf(one, '')}static `}${this.signature(one)} ${this.statements.block(one.body!)}\n`,
    );
    const text = bodies.join('\n');
    const source = [
      `/* Made from ${entry} and what it calls: do not change it here. */\n`,
      `#include <float.h>\n\n#include "${name}.h"\n`,
      `#if FLT_EVAL_METHOD != 0\n#error "doubles are worked out in another precision here: the bits would differ"\n#endif\n`,
      ...constants,
      ...(text.includes(given['Math.round']!) ? [nearestWhole] : []),
      ...(own.length > 0 ? [`${own.join('\n')}\n`] : []),
      text,
    ];
    const runs = made.filter((one) => isGiven(one) && one.name!.text.startsWith('run'));
    if (runs.length !== 1)
      throw new Error(`${entry}: one function of a law is called run…, not ${runs.length}`);
    return {
      file: name,
      header: header.join('\n'),
      source: source.join('\n'),
      structures: Object.fromEntries(
        structures.map((of) => [
          of.name!.text,
          reach.fieldsOf(of).map(({ name: field, type }) => member(field, type)),
        ]),
      ),
      runs: runs[0]!.name!.text,
      parameters: runs[0]!.parameters.map(({ name: taken, type }) => member(taken, type)),
      sources: reach.sources(),
    };
  }
}

const member = (name: ts.Node, type: ts.TypeNode | undefined): Member => [name.getText(), kindOfType(type!)];

/** What is said of a declaration, as C takes it. */
function commentOf(node: ts.Node, margin: string): string {
  const said = ts.getJSDocCommentsAndTags(node).filter(ts.isJSDoc).at(-1)?.getText();
  return said === undefined
    ? ''
    : `${said.replace(/^\s*(?=\/\*\*|\*)/gm, (at) => (at === '' ? margin : `${margin} `))}\n`;
}

/** What is said of a whole module. */
function commentOfFile(file: ts.SourceFile): string {
  const ranges = ts.getLeadingCommentRanges(file.text, 0) ?? [];
  return ranges[0] === undefined ? '' : file.text.slice(ranges[0].pos, ranges[0].end);
}

/** Translates the law that the module `entry` of a program exports, and all that it calls. */
export function translateLaw(entry: string, program: ts.Program): LawInC {
  return new Translator(new Reach(program, entry)).translate(entry);
}
