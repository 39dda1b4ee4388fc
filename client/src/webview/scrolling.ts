/** A person who scrolls is left alone for so long. */
const PAUSE_MILLISECONDS = 1200;
/** Room above a place that is brought into view, in pixels. */
const MARGIN = 48;

/** The scrolling of the desk on which the sheet lies. */
export class Scrolling {
  private hand = 0;

  constructor(private readonly desk: HTMLElement) {
    const byHand = () => {
      this.hand = Date.now();
    };
    for (const type of ['wheel', 'touchmove', 'pointerdown'])
      desk.addEventListener(type, byHand, { passive: true });
    desk.addEventListener('keydown', ({ key }) => {
      if (/^(Arrow|Page|Home$|End$| $)/.test(key)) byHand();
    });
  }

  /** Whether a person is scrolling, or was a moment ago. */
  get byHand(): boolean {
    return Date.now() - this.hand < PAUSE_MILLISECONDS;
  }

  to(top: number): void {
    this.desk.scrollTo({ top, behavior: 'instant' });
  }

  /** Whether the upper edge of an element can be seen. */
  sees(element: HTMLElement): boolean {
    const desk = this.desk.getBoundingClientRect();
    const box = element.getBoundingClientRect();
    return box.top >= desk.top - 4 && box.top < desk.bottom - 24;
  }

  bring(element: HTMLElement): void {
    const desk = this.desk.getBoundingClientRect();
    const box = element.getBoundingClientRect();
    const calm =
      document.body.classList.contains('vscode-reduce-motion') ||
      matchMedia('(prefers-reduced-motion: reduce)').matches;
    const top = this.desk.scrollTop + box.top - desk.top - MARGIN;
    // A long way is no help to the eye.
    const far = Math.abs(top - this.desk.scrollTop) > 2 * desk.height;
    this.desk.scrollTo({ top, behavior: calm || far ? 'instant' : 'smooth' });
  }
}
