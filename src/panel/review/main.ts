import type { FromReview, ToReview } from '../review-messages.ts';

/*
 * What the page of a review can do more inside the editor than as a file: a frame leads to its line in the text, and the
 * page says when that text is another one by now.
 */

declare function acquireVsCodeApi(): { postMessage(message: FromReview): void };

const editor = acquireVsCodeApi();

for (const article of document.querySelectorAll('article')) {
  const place = Number(article.id.replace('frame-', '')) - 1;
  // A frame that was removed has no line.
  if (article.querySelector(':scope > .figures [data-side=now]')) leadToLine(article, place);
}

window.addEventListener('message', ({ data }: MessageEvent<ToReview | undefined>) => {
  if (data?.kind === 'outdated') showOutdated();
});
editor.postMessage({ kind: 'ready' });

function leadToLine(article: HTMLElement, place: number): void {
  const go = (): void => {
    editor.postMessage({ kind: 'go', place });
  };
  const name = article.querySelector('h2')?.textContent ?? '';
  article.querySelector('.name')?.append(button('Go to Its Line', go, `Go to Its Line: ${name}`));
  for (const picture of article.querySelectorAll<HTMLElement>('.figures .frame')) {
    picture.classList.add('leads');
    picture.addEventListener('click', go);
  }
}

function showOutdated(): void {
  if (document.querySelector('#outdated')) return;
  const line = document.createElement('p');
  line.id = 'outdated';
  line.setAttribute('role', 'status');
  const again = (): void => {
    editor.postMessage({ kind: 'again' });
  };
  line.append('The text has changed since. ', button('Compare Again', again));
  document.querySelector('h1')?.after(line);
}

function button(words: string, act: () => void, label = words): HTMLButtonElement {
  const made = document.createElement('button');
  made.type = 'button';
  made.textContent = words;
  made.setAttribute('aria-label', label);
  made.addEventListener('click', act);
  return made;
}
