import { LONGEST_REASON } from '../messages.ts';
import { element } from '../page/elements.ts';

/** Asks in the place of a button why something is meant to be so. Enter takes the reason, Escape gives up. */
export function askWhy(button: HTMLButtonElement, key: string, done: (reason: string) => void): void {
  const box = element('input', 'reason');
  box.type = 'text';
  box.maxLength = LONGEST_REASON;
  box.placeholder = 'Why is it meant to be so?';
  box.setAttribute('aria-label', `Why ${key} is meant to be so`);
  const write = element('button', 'deed', 'Allow');
  write.type = 'submit';
  const form = element('form', 'asking', [box, write]);
  const end = (): void => {
    form.replaceWith(button);
    button.focus({ preventScroll: true });
  };
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const reason = box.value.trim();
    // A reason is needed: it is what others read later.
    if (reason === '') {
      box.focus();
      return;
    }
    end();
    done(reason);
  });
  form.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    event.stopPropagation();
    end();
  });
  button.replaceWith(form);
  box.focus();
}
