// biome-ignore-all lint/suspicious/noTemplateCurlyInString: these are tab stops of snippets.

import { type Span, VOCABULARY } from '../../../../grammar/index.js';
import { later, said, say } from '../../../../grammar/say.js';
import { type CompletionItem, type Cursor, item, nameItems, restOfWord } from './completionParts.js';

/** What a first cell cannot hold, for there is nothing before it that could change. */
const LATER_ONLY = new Set([
  '+2%',
  '+2.5kg',
  'up',
  'down',
  'weekly',
  '-',
  'stop',
  'wk5',
  'no side',
  'no rest',
  'no tempo',
  'no height',
  'no warm',
]);

const SNIPPETS: Readonly<Record<string, string>> = {
  '3x6': '${1:sets}x${2:reps}',
  '3x6-8': '${1:sets}x${2:lower}-${3:upper}',
  '3xmax': '${1:sets}xmax r${2:reserve}',
  '3x30s': '${1:sets}x${2:seconds}s',
  '4x20m': '${1:sets}x${2:metres}m',
  off: 'off ${1:seconds}s',
  r2: 'r${1:reserve}',
  rpe: 'rpe ${1:effort}',
  '80%': '${1:percent}%',
  '42.5kg': '${1:load}kg',
  pack: 'pack ${1:load}kg',
  band: 'band $0',
  '+2%': '+${1:percent}%',
  '+2.5kg': '+${1:load}kg',
  rest: 'rest ${1:2min}',
  tempo: 'tempo ${1:3-1-1}',
  height: 'height ${1:centimetres}cm',
  test: 'test x${1:reps}',
  wk5: 'wk${1:week}',
  ';': '; ',
};

const LABELS: Readonly<Record<string, string>> = {
  '3x6': later('sets x reps'),
  '3x6-8': later('sets x a range of reps'),
  '3xmax': later('sets x max'),
  '3x30s': later('sets x seconds'),
  '4x20m': later('sets x metres'),
  r2: later('r (reps in reserve)'),
  '80%': later('% of the max'),
  '42.5kg': later('kg (a fixed load)'),
  '+2%': later('+% (change)'),
  '+2.5kg': later('+kg (change)'),
  wk5: later('wk (jump to a week)'),
};

/** Items of a cell. `typed` is the cell up to the cursor; `first` whether it is the first of its row. */
export function cellCompletions(cursor: Cursor, typed: string, first: boolean): CompletionItem[] {
  const word = /[^\s;]*$/.exec(typed)?.[0] ?? '';
  const rest = restOfWord(cursor.text.slice(cursor.offset, cursor.line.end));
  const replace: Span = { start: cursor.offset - word.length, end: cursor.offset + rest.length };
  const before = typed
    .slice(0, typed.length - word.length)
    .trimEnd()
    .toLowerCase();
  if (/(^|\s)band$/.test(before)) return nameItems(bandNames(cursor), 'band', replace);
  if (/(^|\s)no$/.test(before)) {
    return nameItems(
      ['side', 'rest', 'tempo', 'height', 'warm', 'deload'],
      'keyword',
      replace,
      say('ends here'),
    );
  }
  if (/(^|\s)(rest|off|tempo|height|rpe|pack|test)$/.test(before)) return [];
  // A number that is being typed is the coach's own; offers would only stand in the way.
  if (/^[+\-–−r]?\d/.test(word)) return [];
  const alreadySaid = new Set(before.split(/\s+/));
  return VOCABULARY.cell
    .filter((entry) => !(first && LATER_ONLY.has(entry.word)) && !alreadySaid.has(entry.word))
    .map((entry) => {
      const snippet = SNIPPETS[entry.word];
      const made = item(
        said(LABELS[entry.word] ?? entry.word),
        'item',
        entry.help,
        replace,
        snippet ?? entry.word,
        snippet !== undefined,
      );
      return { ...made, example: entry.example };
    });
}

function bandNames(cursor: Cursor): string[] {
  return [...cursor.session.world().kits.values()].flatMap(({ node }) =>
    node.lines.flatMap((line) => (line.kind === 'bands' ? line.bands.map(({ text }) => text) : [])),
  );
}
