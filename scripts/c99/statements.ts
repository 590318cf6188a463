/** Statements of a law in C, a line or a block each. */
import ts from 'typescript';
import type { Reach } from '../kernel/reach.ts';
import { refuseWord } from './beside.ts';
import { expressionText } from './expressions.ts';
import { cOf, isColumn, kindOf, kindOfType, refused } from './kinds.ts';

const indent = (text: string): string => text.replace(/^(?=.)/gm, '  ');

export class Statements {
  private readonly reach: Reach;
  /** How a column or a structure that is taken from a member is declared. */
  private readonly pointer: (node: ts.Node, kind: string) => string;

  constructor(reach: Reach, pointer: (node: ts.Node, kind: string) => string) {
    this.reach = reach;
    this.pointer = pointer;
  }

  block(node: ts.Block): string {
    return `{\n${indent(node.statements.map((statement) => this.text(statement)).join('\n'))}\n}`;
  }

  private text(node: ts.Statement): string {
    const of = (part: ts.Expression): string => expressionText(this.reach, part);
    const said = commentsBefore(node);
    return `${said}${this.bare(node, of)}`;
  }

  private bare(node: ts.Statement, of: (part: ts.Expression) => string): string {
    if (ts.isBlock(node)) return this.block(node);
    if (ts.isVariableStatement(node)) return this.declared(node.declarationList).join('\n');
    if (ts.isExpressionStatement(node)) return `${of(node.expression)};`;
    if (ts.isReturnStatement(node))
      return node.expression === undefined ? 'return;' : `return ${of(node.expression)};`;
    if (ts.isContinueStatement(node) && node.label === undefined) return 'continue;';
    if (ts.isIfStatement(node)) {
      if (kindOf(this.reach, node.expression) !== 'boolean') throw refused(node.expression, 'it is no flag');
      const then = `if (${of(node.expression)}) ${this.inner(node.thenStatement)}`;
      return node.elseStatement === undefined ? then : `${then} else ${this.inner(node.elseStatement)}`;
    }
    if (ts.isForStatement(node)) return this.loop(node, of);
    throw refused(node, 'a law in C takes no such statement');
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
    const fixed = flags & ts.NodeFlags.Const ? 'const ' : '';
    return declarations.flatMap((declaration) => {
      const { name, initializer, type } = declaration;
      if (initializer === undefined) throw refused(declaration, 'it must begin with a value');
      const value = expressionText(this.reach, initializer);
      if (ts.isObjectBindingPattern(name))
        return name.elements.map((element) => {
          const member = (element.propertyName ?? element.name).getText();
          const kind = kindOf(this.reach, element.name as ts.Identifier);
          return `${this.as(element, kind, 'const ')}${element.name.getText()} = ${value}->${member};`;
        });
      const counts = ts.isForStatement(declaration.parent.parent);
      const kind = type !== undefined ? kindOfType(type) : counts ? 'Int' : kindOf(this.reach, initializer);
      refuseWord(declaration, name.getText());
      return [`${this.as(initializer, kind, fixed)}${name.getText()} = ${value};`];
    });
  }

  private as(node: ts.Node, kind: string, fixed: string): string {
    return kind in cOf && !isColumn(kind) ? `${fixed}${cOf[kind]} ` : this.pointer(node, kind);
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
