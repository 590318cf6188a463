/** What a law writes: fields and columns that must not be constant in C. */
import ts from 'typescript';
import { type Reach, stripped } from '../kernel/reach.ts';

export class Written {
  /** Fields and parameters whose elements, or that themselves, are written. */
  private readonly all = new Set<ts.Declaration>();
  /** Structures that a number is written in. */
  private readonly structures = new Set<ts.Node>();
  private readonly reach: Reach;

  constructor(reach: Reach) {
    this.reach = reach;
    for (const made of reach.functions) this.walk(made);
  }

  has(declaration: ts.Declaration): boolean {
    return this.all.has(declaration);
  }

  isChanged(structure: ts.Node): boolean {
    return this.structures.has(structure);
  }

  private readonly walk = (node: ts.Node): void => {
    if (ts.isBinaryExpression(node) && isAssignment(node.operatorToken.kind)) this.mark(node.left);
    if (ts.isPostfixUnaryExpression(node)) this.mark(node.operand);
    ts.forEachChild(node, this.walk);
  };

  private mark(target: ts.Expression): void {
    const at = stripped(target);
    const base = ts.isElementAccessExpression(at) ? stripped(at.expression) : at;
    const to = this.fieldOf(base);
    if (to === undefined) return;
    this.all.add(to);
    if (base === at && ts.isPropertySignature(to)) this.structures.add(to.parent);
  }

  /** The field that a member, or a name taken from one, stands for; a parameter for itself. */
  private fieldOf(base: ts.Expression): ts.Declaration | undefined {
    const name = ts.isPropertyAccessExpression(base) ? base.name : base;
    const to = this.reach.declarationOf(name);
    if (to === undefined || !ts.isBindingElement(to)) return to;
    const member = (to.propertyName ?? to.name).getText();
    return this.reach.checker.getTypeAtLocation(to.parent).getProperty(member)?.declarations?.[0];
  }
}

export function isAssignment(kind: ts.SyntaxKind): boolean {
  return kind >= ts.SyntaxKind.FirstAssignment && kind <= ts.SyntaxKind.LastAssignment;
}
