// The script of the panel. It draws what the extension sends, and tells the extension what the coach does.
import morphdom from 'morphdom';
import {
  type FromPanel,
  type Mark,
  readMark,
  readState,
  readToPanel,
  type ToPanel,
} from '../previewMessages.js';
import { type Cursor, marksAt } from './marks.js';
import { Scrolling } from './scrolling.js';
import sheetStyles from './sheet.css';

interface EditorApi {
  postMessage(message: FromPanel): void;
  getState(): unknown;
  setState(state: unknown): void;
}
declare function acquireVsCodeApi(): EditorApi;

const editor = acquireVsCodeApi();
let state = readState(editor.getState());
let cursor: Cursor | null = null;
let settled = state.scroll === 0;
let shown: Extract<ToPanel, { type: 'show' }> | undefined;

const element = <Kind extends HTMLElement>(id: string): Kind => document.getElementById(id) as Kind;
const kinds = element<HTMLSelectElement>('kind');
const clients = element<HTMLSelectElement>('client');
const dates = element<HTMLSelectElement>('date');
const zoom = element<HTMLSelectElement>('zoom');
const large = element<HTMLInputElement>('large');
const desk = element('desk');
const empty = element('empty');
const notice = element('notice');
const spoken = element('spoken');
const host = element('sheet');

const shadow = host.attachShadow({ mode: 'open' });
const documentStyles = new CSSStyleSheet();
const ownStyles = new CSSStyleSheet();
ownStyles.replaceSync(sheetStyles);
shadow.adoptedStyleSheets = [documentStyles, ownStyles];
const sheet = document.createElement('div');
sheet.className = 'sheet';
shadow.append(sheet);

const scrolling = new Scrolling(desk);

function remember(change: Partial<typeof state>): void {
  state = { ...state, ...change };
  editor.setState(state);
}

const send = (message: FromPanel): void => editor.postMessage(message);

// ---------------------------------------------------------------- what is shown

function fill(
  select: HTMLSelectElement,
  options: readonly { readonly value: string; readonly title: string }[],
  chosen: string,
): void {
  const same =
    select.options.length === options.length &&
    options.every(({ value, title }, index) => {
      const option = select.options[index];
      return option?.value === value && option.text === title;
    });
  if (!same) select.replaceChildren(...options.map(({ value, title }) => new Option(title, value)));
  select.value = chosen;
}

function showChoice({ preview, large: isLarge }: Extract<ToPanel, { type: 'show' }>): void {
  const kind = preview.kinds.find(({ id }) => id === preview.kind);
  fill(
    kinds,
    preview.kinds.map(({ id, title }) => ({ value: id, title })),
    preview.kind,
  );
  fill(
    clients,
    preview.clients.map(({ key, name }) => ({ value: key, title: name })),
    preview.client ?? '',
  );
  fill(
    dates,
    [
      { value: '', title: dates.dataset.next ?? '' },
      ...preview.dates.map(({ date, title }) => ({ value: date, title })),
    ],
    preview.date ?? '',
  );
  large.checked = isLarge;
  element('for-client').hidden = kind?.aboutClient === false || preview.clients.length === 0;
  element('for-date').hidden = kind?.hasDates !== true || preview.dates.length === 0;
}

/** Puts the new page into the old one: what did not change stays as it is, with focus, open parts and place. */
function showPage(page: { readonly css: string; readonly body: string }, renewed: boolean): void {
  if (documentCss !== page.css) {
    documentCss = page.css;
    documentStyles.replaceSync(page.css);
  }
  const next = document.createElement('div');
  next.className = 'sheet';
  // A document of its own: nothing in it is loaded or run.
  const parsed = new DOMParser().parseFromString(page.body, 'text/html');
  next.append(...parsed.body.childNodes);
  joinMarks(next);
  // Several documents stand under each other; one of them is the main one.
  for (const other of [...next.querySelectorAll('main')].slice(1)) other.setAttribute('role', 'group');
  if (renewed) sheet.replaceChildren(...next.childNodes);
  else {
    morphdom(sheet, next, {
      onBeforeElUpdated(from, to) {
        if (from.isEqualNode(to)) return false;
        for (const name of ['tabindex', 'aria-current', 'open']) {
          const value = from.getAttribute(name);
          if (value !== null) to.setAttribute(name, value);
        }
        return true;
      },
    });
  }
  readMarks();
}
let documentCss = '';

/** A cell of a table whose parts all come from one place is one thing to go to, not several. */
function joinMarks(page: HTMLElement): void {
  for (const cell of page.querySelectorAll<HTMLElement>('td, th')) {
    const parts = [...cell.querySelectorAll<HTMLElement>('[data-at]')];
    const at = parts[0]?.dataset.at;
    if (at === undefined || parts.some((part) => part.dataset.at !== at)) continue;
    for (const part of parts) delete part.dataset.at;
    cell.dataset.at = at;
  }
}

function show(message: Extract<ToPanel, { type: 'show' }>): void {
  const { preview } = message;
  const before = shown?.preview;
  const renewed = !before?.page || before.kind !== preview.kind || before.client !== preview.client;
  const first = shown === undefined;
  shown = message;
  showChoice(message);
  if (preview.page) showPage(preview.page, renewed);
  else sheet.replaceChildren();
  host.hidden = preview.page === null;
  empty.hidden = preview.empty === null;
  element('empty-heading').textContent = preview.empty?.heading ?? '';
  element('empty-text').textContent = preview.empty?.text ?? '';
  notice.hidden = preview.notice === null;
  if (notice.textContent !== preview.notice) notice.textContent = preview.notice ?? '';
  const words = preview.empty ? `${preview.empty.heading}. ${preview.empty.text}` : (preview.notice ?? '');
  if (spoken.textContent !== words) spoken.textContent = words;
  const scroll = first ? state.scroll : renewed ? 0 : null;
  remember({
    uri: message.uri,
    kind: preview.kind,
    date: preview.date,
    large: message.large,
  });
  fitWidth();
  if (scroll !== null) scrolling.to(scroll);
  mark(!settled);
}

// ---------------------------------------------------------------- size

const PIXELS_PER_POINT = 96 / 72;
/** Smaller letters than this share cannot be read. */
const LEAST_SHARE = 0.5;
/** A page that is wider than this, in points, lies on its side. */
const UPRIGHT_POINTS = 640;

/** A page on its side keeps its width and is drawn smaller; all others flow into the width that there is. */
function fitWidth(): void {
  const points = Number.parseFloat(getComputedStyle(host).getPropertyValue('--page')) || 0;
  const wide = points > UPRIGHT_POINTS ? points * PIXELS_PER_POINT : 0;
  const room = desk.clientWidth - 32;
  const share =
    state.zoom > 0 ? state.zoom / 100 : wide > 0 ? Math.max(LEAST_SHARE, Math.min(1, room / wide)) : 1;
  sheet.style.setProperty('zoom', String(share));
  sheet.style.minWidth = wide > 0 ? `${wide}px` : '';
  zoom.value = String(state.zoom);
}

// ---------------------------------------------------------------- the way to the text and back

let marked: { readonly element: HTMLElement; readonly mark: Mark }[] = [];

function readMarks(): void {
  marked = [...sheet.querySelectorAll<HTMLElement>('[data-at]')].flatMap((each) => {
    const found = readMark(each.dataset.at);
    return found ? [{ element: each, mark: found }] : [];
  });
  const current = marked.find(({ element }) => element.tabIndex === 0 && element.hasAttribute('tabindex'));
  for (const { element } of marked) element.tabIndex = -1;
  // One stop for the Tab key; the arrows go from cell to cell.
  const stop = current ?? marked[0];
  if (stop) stop.element.tabIndex = 0;
}

/** Marks the cell of the cursor, and brings it into view where none of its places can be seen. */
function mark(stay = false): void {
  const wanted =
    cursor === null
      ? []
      : marksAt(
          marked.map((each) => each.mark),
          cursor,
        );
  const found = marked.filter((each) => wanted.includes(each.mark)).map(({ element }) => element);
  for (const { element } of marked) {
    if (found.includes(element)) element.setAttribute('aria-current', 'true');
    else element.removeAttribute('aria-current');
  }
  if (found.length === 0 || stay || scrolling.byHand) return;
  if (!found.some((each) => scrolling.sees(each))) scrolling.bring(found[0] as HTMLElement);
}

const targetOf = (event: Event): HTMLElement | undefined =>
  event
    .composedPath()
    .find((node): node is HTMLElement => node instanceof HTMLElement && node.dataset.at !== undefined);

function jump(target: HTMLElement): void {
  stopAt(target);
  if (target.dataset.at !== undefined) send({ type: 'jump', at: target.dataset.at });
}

function stopAt(target: HTMLElement): void {
  for (const { element } of marked) element.tabIndex = element === target ? 0 : -1;
}

shadow.addEventListener('click', (event) => {
  const target = targetOf(event);
  // Words that were selected to be copied are no click.
  if (target && !document.getSelection()?.toString()) jump(target);
});

shadow.addEventListener('keydown', (event) => {
  if (!(event instanceof KeyboardEvent)) return;
  const target = targetOf(event);
  if (!target || event.altKey || event.ctrlKey || event.metaKey) return;
  const here = marked.findIndex(({ element }) => element === target);
  const steps: Readonly<Record<string, number>> = {
    ArrowDown: here + 1,
    ArrowUp: here - 1,
    Home: 0,
    End: marked.length - 1,
  };
  if (event.key === 'Enter') jump(target);
  else if (event.key in steps) {
    const next = marked[steps[event.key] ?? here]?.element;
    if (!next) return;
    stopAt(next);
    next.focus();
  } else return;
  event.preventDefault();
});

// ---------------------------------------------------------------- choices

kinds.addEventListener('change', () => send({ type: 'choose', kind: kinds.value, date: null }));
clients.addEventListener('change', () => send({ type: 'choose', client: clients.value, date: null }));
dates.addEventListener('change', () => send({ type: 'choose', date: dates.value || null }));
large.addEventListener('change', () => send({ type: 'choose', large: large.checked }));
zoom.addEventListener('change', () => {
  remember({ zoom: Number(zoom.value) });
  fitWidth();
});
element('export').addEventListener('click', () => send({ type: 'export' }));
let pause: ReturnType<typeof setTimeout> | undefined;
desk.addEventListener(
  'scroll',
  () => {
    clearTimeout(pause);
    pause = setTimeout(() => remember({ scroll: Math.round(desk.scrollTop) }), 150);
  },
  { passive: true },
);
new ResizeObserver(fitWidth).observe(desk);

window.addEventListener('message', ({ data }) => {
  const message = readToPanel(data);
  if (message?.type === 'show') show(message);
  else if (message?.type === 'cursor') {
    cursor = message.at;
    // After a reload the page stays where it was, until the cursor moves.
    mark(!settled);
    settled = true;
  }
});
send({ type: 'ready' });
