/** Places that hold numbers of one format each: fields, names, results of functions and of single operations. */
import ts from 'typescript';
import type { Slot } from '../../../src/embed/fixed/slot.ts';
import { type Reach, stripped } from '../../kernel/reach.ts';
import { refused } from '../kinds.ts';

/** The place of whole numbers: no fraction. */
export const whole = 0;

export class Slots {
  readonly all: Slot[] = [{ name: 'whole numbers', field: null, within: null, value: 1, made: [] }];
  private readonly ids = new Map<ts.Node, number>();
  private readonly reach: Reach;

  constructor(reach: Reach) {
    this.reach = reach;
  }

  /** Of what is declared: a name taken from a field stands for the field. */
  ofDeclaration(declaration: ts.Declaration): number {
    const to = this.fieldOf(declaration);
    const known = this.ids.get(to);
    if (known !== undefined) return known;
    const name = (to as ts.NamedDeclaration).name!.getText();
    const isField = ts.isPropertySignature(to);
    const isColumn = ts.isParameter(to) && to.type?.getText() === 'Float64Array';
    const owner = isField ? (to.parent as ts.InterfaceDeclaration).name.text : null;
    const tag = ts.getJSDocTags(to).find(({ tagName }) => tagName.text === 'within');
    const constant =
      ts.isVariableDeclaration(to) && ts.isSourceFile(to.parent.parent.parent)
        ? Number(stripped(to.initializer!).getText())
        : null;
    return this.add(to, {
      name,
      field: owner !== null ? `${owner}.${name}` : isColumn ? name : null,
      within: tag === undefined ? null : String(tag.comment).trim(),
      value: constant,
      made: [],
    });
  }

  /** Of the result of an operation, and of a literal that is not whole. */
  ofNode(node: ts.Expression, value: number | null = null): number {
    const name = node.getText().replaceAll(/\s+/g, ' ');
    return this.ids.get(node) ?? this.add(node, { name, field: null, within: null, value, made: [] });
  }

  /** What comes to stand in a place: another's value, or an operation with others. */
  makes(slot: number, how: Slot['made'][number]['how'], of: readonly number[]): void {
    const { made } = this.all[slot]!;
    const isKnown = made.some((one) => one.how === how && one.of.join() === of.join());
    if (slot !== whole && !isKnown) made.push({ how, of });
  }

  private add(node: ts.Node, slot: Slot): number {
    this.ids.set(node, this.all.length);
    return this.all.push(slot) - 1;
  }

  private fieldOf(to: ts.Declaration): ts.Declaration {
    if (!ts.isBindingElement(to)) return to;
    const member = (to.propertyName ?? to.name).getText();
    const field = this.reach.checker.getTypeAtLocation(to.parent).getProperty(member)?.declarations?.[0];
    if (field === undefined) throw refused(to, 'it is no field');
    return field;
  }
}
