import { later, said } from './say.js';
import { VOCABULARY, type VocabularyEntry } from './vocabulary.js';

/** One piece between two commas of a statement, as it stands in the statement's example. */
export interface StatementPart {
  readonly text: string;
  readonly help: string;
  readonly optional: boolean;
}

const DATES = later('From this date on, and up to and with that one; either may be left out.');
const REASON = later('The reason, in quotation marks.');

/** What each piece of an example means, in order, and the words with which it begins wherever it is written. */
const MEANINGS: Readonly<
  Record<string, readonly { readonly help: string; readonly begins?: RegExp; readonly optional?: true }[]>
> = {
  max: [
    { help: later('The movement.') },
    {
      help: later(
        'The set that was done: the load, the reps, and how many were left in reserve. `bw`, `bw+5kg` where the body is lifted; `x1` is a true single.',
      ),
    },
    {
      help: later(
        'The date of that set; then `, at KIT` for a machine, and `, from DATE` where it should count only from a later day.',
      ),
    },
  ],
  follows: [
    { help: later('The program.') },
    { help: later('The first day of its first week.'), begins: /^from\b/i },
    {
      help: later(
        'The weekdays that are trained, or `every 3 days`; then `supervised` where the coach stands by, `alongside` where the program before goes on.',
      ),
      begins: /^(?:on|every|supervised|alongside)\b/i,
    },
  ],
  swap: [
    { help: later('The movement as the program has it.') },
    { help: later('What she does instead.'), begins: /^to\b/i },
    {
      help: later('Sets, reps and effort of its own. Left out, those of the row hold.'),
      begins: /^\d/,
      optional: true,
    },
    { help: DATES, begins: /^(?:from|until)\b/i, optional: true },
    { help: REASON, begins: /^"/, optional: true },
  ],
  // In a log: the same words, but what was done instead of what is asked for, and no dates.
  'log swap': [
    { help: later('The movement as the plan has it.') },
    { help: later('What she did instead.'), begins: /^to\b/i },
    {
      help: later('What was done, as in any other line of a log. Left out, the sets of the plan were done.'),
      begins: /^(?:\d|bw\b|pack\b|band\b)/i,
      optional: true,
    },
    { help: REASON, begins: /^"/, optional: true },
  ],
  away: [
    { help: later('The first and the last day away.') },
    {
      help: later(
        'Shares of the target in the first weeks back; `keep dates` where the program goes on without her.',
      ),
      begins: /^(?:back|keep)\b/i,
      optional: true,
    },
  ],
  avoid: [
    { help: later('A movement, or a pattern and with it all of its movements.') },
    { help: DATES, begins: /^(?:from|until)\b/i, optional: true },
    { help: REASON, begins: /^"/, optional: true },
  ],
};

/** A statement of a client or of a log by its word, with the pieces of its example; null where its example says enough. */
export function statementParts(
  word: string,
  section: 'client' | 'log',
): { readonly entry: VocabularyEntry; readonly parts: readonly StatementPart[] } | null {
  const entry = VOCABULARY.statements[section].find((each) => each.word === word);
  const meanings = meaningsOf(word, section);
  if (!entry || meanings.length === 0) return null;
  const texts = entry.example.slice(word.length + 1).split(',');
  return {
    entry,
    parts: meanings.map(({ help, optional = false }, index) => ({
      text: (texts[index] ?? '').trim(),
      help: said(help),
      optional,
    })),
  };
}

/** Which piece a text is, at a place among the pieces: by the word that it begins with, else by the place. */
export function partAt(word: string, section: 'client' | 'log', text: string, place: number): number {
  const meanings = meaningsOf(word, section);
  const named = meanings.findIndex(({ begins }) => begins?.test(text.trim()));
  return named >= 0 ? named : Math.min(place, meanings.length - 1);
}

function meaningsOf(word: string, section: 'client' | 'log') {
  const key = section === 'log' ? `log ${word}` : word;
  return Object.hasOwn(MEANINGS, key) ? (MEANINGS[key] ?? []) : [];
}
