type Attributes = Readonly<Record<string, string | number | boolean | null | undefined>>;
type Children = readonly (Node | string)[];

/** The element with this id; the frame of the page has them all. */
export function byId<E extends HTMLElement = HTMLElement>(id: string): E {
  return document.getElementById(id) as E;
}

/** An HTML element. Text is always text: nothing here reads markup. */
export function html<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  children: Children = [],
): HTMLElementTagNameMap[K] {
  return fill(document.createElement(tag), attributes, children);
}

/** An SVG element. */
export function svg<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  children: Children = [],
): SVGElementTagNameMap[K] {
  return fill(document.createElementNS('http://www.w3.org/2000/svg', tag), attributes, children);
}

function fill<E extends Element>(element: E, attributes: Attributes, children: Children): E {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    element.setAttribute(name, value === true ? '' : `${value}`);
  }
  element.append(...children);
  return element;
}

/** Sets a text only when it is another, so that a screen reader and the layout are left in peace. */
export function setText(element: Element, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}
