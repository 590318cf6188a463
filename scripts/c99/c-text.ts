/** A law as C: a header of its structures and what it gives, and a text of its functions; numbers as `beside` has them. */
import { basename } from 'node:path';
import ts from 'typescript';
import type { Field, Reach } from '../kernel/reach.ts';
import { refuseWord } from './beside.ts';
import { isColumn, kindOfType, refused } from './kinds.ts';
import { Statements } from './statements.ts';
import type { Writing } from './writing.ts';
import { Written } from './written.ts';

export type Structure = ts.ClassDeclaration | ts.InterfaceDeclaration;

/** What stands beside the translated text, by the type of its numbers. */
export interface Beside {
  /** What the source includes before the header of the law, and what must hold for it after. */
  readonly includes: string;
  readonly guard: string;
  /** A constant of the text. */
  constant(of: ts.VariableDeclaration): string;
  /** Functions that the text calls and that are no law. */
  functions(text: string): readonly string[];
  /** What is said behind a field. */
  field(of: Field): string;
}

export class CText {
  private readonly types: Readonly<Record<string, string>>;
  private readonly beside: Beside;
  private readonly reach: Reach;
  private readonly written: Written;
  private readonly statements: Statements;

  constructor(writing: Writing, types: Readonly<Record<string, string>>, beside: Beside) {
    this.types = types;
    this.beside = beside;
    this.reach = writing.reach;
    this.written = new Written(writing.reach);
    this.statements = new Statements(writing, (node, kind) => this.taken(node, kind));
  }

  /** A pointer to what `kind` names; constant unless it is written through. */
  private pointer(kind: string, isWritten: boolean): string {
    return `${isWritten ? '' : 'const '}${this.types[kind] ?? kind} *`;
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
    return kind in this.types
      ? `${this.types[kind]} ${name}`
      : `${this.pointer(kind, this.isChanged(kind))}${name}`;
  }

  private field(field: Field): string {
    if (field.type === undefined) throw refused(field, 'it must say its type');
    return `${commentOf(field, '  ')}  ${this.declared(field.name.getText(), field.type, field)};${this.beside.field(field)}`;
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
    const returned = isVoid ? 'void' : this.types[kindOfType(made.type)];
    if (returned === undefined) throw refused(made.type, 'a law in C returns a number or nothing');
    const taken = made.parameters.map((parameter) => {
      if (parameter.type === undefined) throw refused(parameter, 'it must say its type');
      return this.declared(parameter.name.getText(), parameter.type, parameter);
    });
    return `${returned} ${made.name.text}(${taken.join(', ')})`;
  }

  /** Structures, each after those that it holds. */
  ordered(): Structure[] {
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

  texts(entry: string): { readonly header: string; readonly source: string } {
    const { reach, beside } = this;
    const name = lawFile(entry);
    const made = [...reach.functions];
    const isGiven = (one: ts.FunctionDeclaration): boolean => reach.given.has(one);
    const guard = `${name.toUpperCase()}_H`;
    const calls = made.filter(isGiven).map((one) => `${commentOf(one, '')}${this.signature(one)};`);
    const header = [
      commentOfFile(reach.entry),
      `/* Made from ${entry}: do not change it here. */\n`,
      `#ifndef ${guard}\n#define ${guard}\n\n#include <stdbool.h>\n#include <stdint.h>\n`,
      ...this.ordered().map((of) => `${this.structure(of)}\n`),
      ...calls.map((call) => `${call}\n`),
      `#endif\n`,
    ];
    const constants = [...reach.constants].map(
      (one) =>
        `${commentOf(one.parent.parent, '')}static const ${this.types.number} ${one.name.getText()} = ${beside.constant(one)};\n`,
    );
    const own = made.filter((one) => !isGiven(one)).map((one) => `static ${this.signature(one)};`);
    const bodies = made.map(
      (one) =>
        `${isGiven(one) ? '' : `${commentOf(one, '')}static `}${this.signature(one)} ${this.statements.block(one.body!)}\n`,
    );
    const text = bodies.join('\n');
    const source = [
      `/* Made from ${entry} and what it calls: do not change it here. */\n`,
      `${beside.includes}#include "${name}.h"\n`,
      beside.guard,
      ...constants,
      ...beside.functions(text),
      ...(own.length > 0 ? [`${own.join('\n')}\n`] : []),
      text,
    ];
    return { header: header.join('\n'), source: source.filter((part) => part !== '').join('\n') };
  }
}

/** Name of a law's files in C. */
export const lawFile = (entry: string): string => basename(entry, '.ts').replace('-', '_');

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
