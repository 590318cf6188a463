/** Statements of a law in C, a line or a block each. */
import ts from 'typescript';
import { refuseWord } from './beside.ts';
import { expressionText } from './expressions.ts';
import { isColumn, kindOf, kindOfType, refused } from './kinds.ts';
import type { Writing } from './writing.ts';

const indent = (text: string): string => text.replace(/^(?=.)/gm, '  ');

export class Statements {
  private readonly writing: Writing;
  /** How a column or a structure that is taken from a member is declared. */
  private readonly pointer: (node: ts.Node, kind: string) => string;

  constructor(writing: Writing, pointer: (node: ts.Node, kind: string) => string) {
    this.writing = writing;
    this.pointer = pointer;
  }

  block(node: ts.Block): string {
    return `{\n${indent(node.statements.map((statement) => this.text(statement)).join('\n'))}\n}`;
  }

  private text(node: ts.Statement): string {
    const of = (part: ts.Expression): string => expressionText(this.writing, part);
    const said = commentsBefore(node);
    return `${said}${this.bare(node, of)}`;
  }

  private bare(node: ts.Statement, of: (part: ts.Expression) => string): string {
    if (ts.isBlock(node)) return this.block(node);
    if (ts.isVariableStatement(node)) return this.declared(node.declarationList).join('\n');
    if (ts.isExpressionStatement(node)) return `${of(node.expression)};`;
    if (ts.isReturnStatement(node))
      return node.expression === undefined ? 'return;' : `return ${this.returned(node.expression)};`;
    if (ts.isContinueStatement(node) && node.label === undefined) return 'continue;';
    if (ts.isIfStatement(node)) {
      if (kindOf(this.writing.reach, node.expression) !== 'boolean')
        throw refused(node.expression, 'it is no flag');
      const then = `if (${of(node.expression)}) ${this.inner(node.thenStatement)}`;
      return node.elseStatement === undefined ? then : `${then} else ${this.inner(node.elseStatement)}`;
    }
    if (ts.isForStatement(node)) return this.loop(node, of);
    throw refused(node, 'a law in C takes no such statement');
  }

  private returned(node: ts.Expression): string {
    let of: ts.Node = node;
    while (!ts.isFunctionDeclaration(of)) of = of.parent;
    return this.valueFor(node, kindOfType(of.type!), of);
  }

  /** A value for what `into` declares. */
  private valueFor(node: ts.Expression, kind: string, into: ts.Declaration): string {
    const { steps } = this.writing;
    return steps !== null && kind === 'number'
      ? steps.number(this.writing, node, into)
      : expressionText(this.writing, node);
  }

  /** What depends on a condition, always in braces. */
  private inner(node: ts.Statement): string {
    return ts.isBlock(node) ? this.block(node) : `{\n${indent(this.text(node))}\n}`;
  }

  private loop(node: ts.ForStatement, of: (part: ts.Expression) => string): string {
    const { initializer, condition, incrementor } = node;
    if (initializer === undefined || condition === undefined || incrementor === undefined)
      throw refused(node, 'a loop begins, ends and counts');
    if (!ts.isVariableDeclarationList(initializer)) throw refused(node, 'a loop declares what it counts');
    const begin = this.declared(initializer).join(' ');
    return `for (${begin} ${of(condition)}; ${of(incrementor)}) ${this.inner(node.statement)}`;
  }

  private declared({ declarations, flags }: ts.VariableDeclarationList): string[] {
    const { reach, arrow } = this.writing;
    const isConst = (flags & ts.NodeFlags.Const) !== 0;
    return declarations.flatMap((declaration) => {
      const { name, initializer, type } = declaration;
      if (initializer === undefined) throw refused(declaration, 'it must begin with a value');
      if (ts.isObjectBindingPattern(name)) {
        const from = expressionText(this.writing, initializer);
        return name.elements.map((element) => {
          const member = (element.propertyName ?? element.name).getText();
          const kind = kindOf(reach, element.name as ts.Identifier);
          return `${this.as(element, kind, true)}${element.name.getText()} = ${from}${arrow}${member};`;
        });
      }
      const counts = ts.isForStatement(declaration.parent.parent);
      const kind = type !== undefined ? kindOfType(type) : counts ? 'Int' : kindOf(reach, initializer);
      refuseWord(declaration, name.getText());
      const value = this.valueFor(initializer, kind, declaration);
      return [`${this.as(initializer, kind, isConst)}${name.getText()} = ${value};`];
    });
  }

  /** How a declaration begins. */
  private as(node: ts.Node, kind: string, isConst: boolean): string {
    const { types } = this.writing;
    if (types === null) return isConst ? 'const ' : 'let ';
    return kind in types && !isColumn(kind)
      ? `${isConst ? 'const ' : ''}${types[kind]} `
      : this.pointer(node, kind);
  }
}

/** Comments that stand before a statement say why also in C. */
function commentsBefore(node: ts.Node): string {
  const text = node.getSourceFile().getFullText();
  const ranges = ts.getLeadingCommentRanges(text, node.getFullStart()) ?? [];
  return ranges
    .map(({ pos, end }) => text.slice(pos, end).replace(/^\/\/ ?(.*)$/, '/* $1 */'))
    .map((line) => `${line}\n`)
    .join('');
}
