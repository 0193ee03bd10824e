import type { Edges } from '../../geometry/shapes.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import { LENGTH_WORDS } from '../../people/lengths.ts';
import { ladder } from '../../search/index.ts';
import type { FrameOnMat } from './frame-on-mat.ts';

/** Pixels of the page. */
const PICTURE = { width: 92, height: 92 };

/** The lengths that this picture has, each as a small picture that is one click away. */
export function showLadder(column: HTMLElement, on: FrameOnMat, address: string, choose: (edges: Edges) => void): void {
  const { frame, configuration, was } = on;
  const rungs = ladder(was, configuration, { allow: frame.allow });
  column.replaceChildren(
    ...rungs.map(({ length, answer }) => {
      const button = document.createElement('button');
      button.type = 'button';
      button.className = 'rung';
      button.disabled = frame.isFinal;
      if (length === was.length) button.setAttribute('aria-current', 'true');
      const words = document.createElement('span');
      words.textContent = LENGTH_WORDS[length];
      button.append(smallPicture(on, answer.edges, address), words);
      button.addEventListener('click', () => {
        choose(answer.edges);
      });
      return button;
    }),
  );
}

function smallPicture({ was: { photo, degrees } }: FrameOnMat, edges: Edges, address: string): HTMLElement {
  const scale = Math.min(PICTURE.width / widthOf(edges), PICTURE.height / heightOf(edges));
  const window = document.createElement('span');
  window.className = 'small';
  window.style.width = `${widthOf(edges) * scale}px`;
  window.style.height = `${heightOf(edges) * scale}px`;
  const image = document.createElement('img');
  image.alt = '';
  image.src = address;
  image.style.width = `${photo.width * scale}px`;
  image.style.height = `${photo.height * scale}px`;
  image.style.left = `${-edges.left * scale}px`;
  image.style.top = `${-edges.top * scale}px`;
  image.style.rotate = `${degrees}deg`;
  window.append(image);
  return window;
}
