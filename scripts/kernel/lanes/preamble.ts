/** What a loop in two lanes reads once, before its first turn: members, which never change, and numbers for both lanes. */
export class Preamble {
  private readonly names = new Map<string, string>();
  private count = 0;
  private readonly moving = new Set<string>();

  /** A counter within a turn: what it stands in is read where it is needed. */
  move(counter: string): void {
    this.moving.add(counter);
  }

  isMoving(text: string): boolean {
    return [...this.moving].some((counter) => text.includes(counter));
  }

  /** The name of a constant with this text. */
  name(text: string): string {
    if (this.isMoving(text)) return text;
    const known = this.names.get(text);
    if (known !== undefined) return known;
    const name = this.fresh('c');
    this.names.set(text, name);
    return name;
  }

  /** A name that nothing else has. */
  fresh(letter: string): string {
    return `${letter}$${this.count++}`;
  }

  lines(): readonly string[] {
    return [...this.names].map(([text, name]) => `const ${name} = ${text};`);
  }
}
