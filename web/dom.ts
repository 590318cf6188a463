/** Making elements in one line. */

type Child = Node | string | null;

export type Attributes = Readonly<Record<string, string | number | boolean | null>>;

/** An HTML element with attributes (`true` sets an empty one, `false` and null none) and children. */
export function html<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  return filled(document.createElement(tag), attributes, children);
}

/** The same for SVG. */
export function svg<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): SVGElementTagNameMap[K] {
  return filled(document.createElementNS('http://www.w3.org/2000/svg', tag), attributes, children);
}

function filled<E extends HTMLElement | SVGElement>(
  element: E,
  attributes: Attributes,
  children: readonly Child[],
): E {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === false) continue;
    // A page's policy refuses style as an attribute and takes it as a property.
    if (name === 'style') element.style.cssText = String(value);
    else element.setAttribute(name, value === true ? '' : String(value));
  }
  element.append(...children.filter((child) => child !== null));
  return element;
}

/** The element of that id; the page's own shell has it. */
export function byId(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`the page has no #${id}`);
  return element;
}
