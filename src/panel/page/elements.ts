/** An element of the page, which the editor wrote; it is always there. */
export function byId(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (!found) throw new Error(`The page has no ${id}.`);
  return found;
}

/** A new element; what it says is text, whatever is in it. */
export function element<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  className: string,
  content: string | readonly Node[] = [],
): HTMLElementTagNameMap[Name] {
  const made = document.createElement(name);
  if (className !== '') made.className = className;
  if (typeof content === 'string') made.textContent = content;
  else made.append(...content);
  return made;
}

/** `1 frame`, `2,000 frames` */
export function counted(number: number, noun: string): string {
  return `${number.toLocaleString('en')} ${noun}${number === 1 ? '' : 's'}`;
}
