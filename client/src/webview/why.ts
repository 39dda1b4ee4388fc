// The script of the panel of reasons. It draws what the extension sends, and tells the extension what the coach does.
import morphdom from 'morphdom';
import { type FromWhyPanel, readToWhyPanel, readWhyState, type ToWhyPanel } from '../whyMessages.js';

interface EditorApi {
  postMessage(message: FromWhyPanel): void;
  getState(): unknown;
  setState(state: unknown): void;
}
declare function acquireVsCodeApi(): EditorApi;

type Answer = ToWhyPanel['answer'];
type Field = Answer['fields'][number];

const editor = acquireVsCodeApi();
let state = readWhyState(editor.getState());
/** What the page is about; another one is read from its beginning. */
let about = '';

const element = <Kind extends HTMLElement>(id: string): Kind => document.getElementById(id) as Kind;
const clients = element<HTMLSelectElement>('client');
const days = element<HTMLSelectElement>('day');
const form = element<HTMLFormElement>('fields');
const groups = element('groups');
const reset = element<HTMLButtonElement>('reset');
const page = element('page');
const spoken = element('spoken');

const send = (message: FromWhyPanel): void => editor.postMessage(message);

// ---------------------------------------------------------------- what is shown

function fill(
  select: HTMLSelectElement,
  options: readonly { readonly value: string; readonly title: string }[],
  chosen: string | null,
): void {
  const text = JSON.stringify(options);
  if (select.dataset.options !== text)
    select.replaceChildren(...options.map(({ value, title }) => new Option(title, value)));
  select.dataset.options = text;
  select.value = chosen ?? '';
  element(`for-${select.id}`).hidden = options.length === 0;
}

function show(message: ToWhyPanel): void {
  const { answer } = message;
  const changes = answer.view === 'if' && state.view === 'if' ? state.changes : message.state.changes;
  const now = [answer.view, answer.title, answer.day].join('\n');
  const renewed = now !== about;
  about = now;
  state = { ...message.state, view: answer.view, changes };
  editor.setState(state);
  for (const view of ['why', 'if'] as const)
    element(`view-${view}`).setAttribute('aria-pressed', String(view === answer.view));
  fill(
    clients,
    answer.clients.map(({ key, name }) => ({ value: key, title: name })),
    answer.client,
  );
  fill(
    days,
    answer.days.map(({ date, title }) => ({ value: date, title })),
    answer.day,
  );
  // What comes of a change can be seen wherever the coach writes it.
  spoken.className = answer.view === 'if' && answer.found ? 'outcome' : 'unseen';
  showFields(answer.fields);
  const next = document.createElement('div');
  // A document of its own: nothing in it is loaded or run.
  const parsed = new DOMParser().parseFromString(answer.body || '<p></p>', 'text/html');
  next.append(...parsed.body.childNodes);
  if (answer.body === '') next.replaceChildren(answer.spoken);
  morphdom(page, next, { childrenOnly: true });
  if (spoken.textContent !== answer.spoken) spoken.textContent = answer.spoken;
  if (renewed) element('desk').scrollTo({ top: 0, behavior: 'instant' });
}

// ---------------------------------------------------------------- what is written differently

const inputOf = (id: string): HTMLInputElement | HTMLTextAreaElement | undefined =>
  [...groups.querySelectorAll<HTMLInputElement | HTMLTextAreaElement>('input, textarea')].find(
    ({ dataset }) => dataset.field === id,
  );

/** Fields are made anew only when what is written has changed, so that nobody loses the place while typing. */
function showFields(fields: readonly Field[]): void {
  form.hidden = fields.length === 0;
  const text = JSON.stringify(fields.map(({ problem: _, ...field }) => field));
  if (groups.dataset.fields !== text) {
    groups.dataset.fields = text;
    const names = [...new Set(fields.map(({ group }) => group))];
    groups.replaceChildren(
      ...names.map((name) => {
        const set = document.createElement('fieldset');
        const legend = document.createElement('legend');
        legend.textContent = name;
        set.append(legend, ...fields.filter(({ group }) => group === name).map(fieldElement));
        return set;
      }),
    );
  }
  for (const { id, written, problem } of fields) {
    const input = inputOf(id);
    if (!input) continue;
    input.classList.toggle('changed', input.value !== written);
    input.setAttribute('aria-invalid', String(problem !== null));
    const words = element(`${input.id}-problem`);
    words.hidden = problem === null;
    if (words.textContent !== problem) words.textContent = problem ?? '';
  }
  reset.disabled = Object.keys(state.changes).length === 0;
}

function fieldElement({ id, label, written, long }: Field): HTMLElement {
  const part = document.createElement('div');
  part.className = 'line-field';
  const input = document.createElement(long ? 'textarea' : 'input');
  const value = state.changes[id] ?? written;
  input.id = `field-${id.replace(/[^\w-]/g, (character) => `_${character.charCodeAt(0)}_`)}`;
  input.dataset.field = id;
  input.value = value;
  input.spellcheck = false;
  input.autocomplete = 'off';
  input.setAttribute('aria-describedby', `${input.id}-problem`);
  if (input instanceof HTMLTextAreaElement) input.rows = Math.max(2, value.split('\n').length);
  const name = document.createElement('label');
  name.htmlFor = input.id;
  name.textContent = label;
  const problem = document.createElement('p');
  problem.id = `${input.id}-problem`;
  problem.className = 'problem';
  problem.hidden = true;
  part.append(name, input, problem);
  return part;
}

let pause: ReturnType<typeof setTimeout> | undefined;

form.addEventListener('input', ({ target }) => {
  if (!(target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement)) return;
  const id = target.dataset.field ?? '';
  if (target instanceof HTMLTextAreaElement) target.rows = Math.max(2, target.value.split('\n').length);
  const fields: readonly Field[] = JSON.parse(groups.dataset.fields ?? '[]');
  const changes = { ...state.changes, [id]: target.value };
  if (fields.some((field) => field.id === id && field.written === target.value)) delete changes[id];
  state = { ...state, changes };
  editor.setState(state);
  clearTimeout(pause);
  // While a number is typed, what it was in between is of no use.
  pause = setTimeout(() => send({ type: 'choose', changes: state.changes }), 300);
});
form.addEventListener('submit', (event) => event.preventDefault());
reset.addEventListener('click', () => {
  clearTimeout(pause);
  state = { ...state, changes: {} };
  groups.dataset.fields = '';
  send({ type: 'choose', changes: {} });
});

// ---------------------------------------------------------------- choices and the way to the text

for (const view of ['why', 'if'] as const)
  element(`view-${view}`).addEventListener('click', () => send({ type: 'choose', view }));
clients.addEventListener('change', () => {
  state = { ...state, changes: {} };
  groups.dataset.fields = '';
  send({ type: 'choose', client: clients.value });
});
days.addEventListener('change', () => send({ type: 'choose', day: days.value }));
page.addEventListener('click', ({ target }) => {
  const at = target instanceof HTMLElement ? target.closest<HTMLElement>('[data-at]')?.dataset.at : undefined;
  if (at !== undefined) send({ type: 'jump', at });
});
window.addEventListener('message', ({ data }) => {
  const message = readToWhyPanel(data);
  if (message) show(message);
});
send({ type: 'ready' });
