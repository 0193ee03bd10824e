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

/** Resolves once the page was painted as it is now: what takes a while begins then. */
export async function painted(): Promise<void> {
  await new Promise<void>((resolve) => {
    requestAnimationFrame(() => {
      setTimeout(resolve, 0);
    });
  });
}

/** `1 frame`, `2,000 frames` */
export function counted(number: number, noun: string): string {
  return `${number.toLocaleString('en')} ${noun}${number === 1 ? '' : 's'}`;
}
