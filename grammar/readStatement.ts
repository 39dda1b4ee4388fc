import { holdsValues } from './around.js';
import type * as ast from './ast.js';
import { nearEnd } from './damaged.js';
import { nearest, orList, problem, replace, shown } from './messages.js';
import { movementOf } from './movementName.js';
import { lineParser } from './parser.js';
import { plainDone } from './plainLines.js';
import type { Span } from './problem.js';
import { type Place, trimmedSpan } from './readLine.js';
import { hiddenOpener, isInside, levelOf, OPENERS } from './readOpener.js';
import { later, said, say } from './say.js';
import { broken, finish, type Parts, type Read } from './statementValues.js';
import { stoppedProblem } from './stopped.js';
import { normaliseName } from './values.js';
import { type SectionKind, type StatementEntry, VOCABULARY } from './vocabulary.js';

/** A line with a colon. */
export function readStatement(source: string, content: Span, colon: number, place: Place): Read {
  const labelSpan = trimmedSpan(source, content.start, colon);
  const label = normaliseName(source.slice(labelSpan.start, labelSpan.end));
  const parts: Parts = { source, content, label, labelSpan, value: { start: colon + 1, end: content.end } };
  if (place.section === 'lost') return openerOf(parts, place) ?? broken([]);
  const end = nearEnd(source, content, place);
  if (end !== null) return end;
  const hidden = label.includes(' ') ? null : hiddenOpener(source, content, place);
  if (hidden !== null && !OPENERS.includes(label as SectionKind)) return hidden;
  if (label === '') {
    const loose = hiddenOpener(source, content, place, true);
    if (loose !== null) return loose;
    return broken([
      problem(
        'syntax',
        { start: colon, end: colon + 1 },
        say('Nothing stands before the colon. Write the name of the movement or of the statement there.'),
      ),
    ]);
  }
  if (place.section === 'none') return openerOf(parts, place) ?? outside(parts, place);
  const { section } = place;
  const known = VOCABULARY.statements[section].find((each) => matches(each, label, section));
  if (known !== undefined) {
    const byWeek = known.word === 'effort' || known.word === 'rounds';
    return byWeek
      ? finish(parts, known, section)
      : firstLineOnly(parts, (first) => finish(first, known, section));
  }
  if (section === 'day' || section === 'circuit') return readRow(parts, place);
  if (section === 'log') return firstLineOnly(parts, (first) => readDone(first, place));
  return openerOf(parts, place) ?? misplaced(parts, place);
}

function matches(entry: StatementEntry, label: string, section: SectionKind): boolean {
  if (entry.word === label) return true;
  return (
    section === 'kit' &&
    ((entry.word === 'bar' && label.startsWith('bar ')) ||
      (entry.word === 'machine' && label.startsWith('machine ')))
  );
}

/** `day: Lower`, `block Keel: 5 weeks`: an opener written like a statement. */
function openerOf(parts: Parts, place: Place): Read | null {
  if (isInside(parts.source, parts.content, place)) return null;
  const first = parts.label.split(' ')[0] as SectionKind;
  if (!OPENERS.includes(first)) return null;
  const at = parts.labelSpan.end;
  const span = { start: parts.labelSpan.start, end: parts.value.start };
  const whole = parts.label === first;
  const better = whole
    ? `${first} ${parts.source.slice(parts.value.start, parts.value.end).trim()}`
    : `${parts.source.slice(parts.labelSpan.start, at)}, …`;
  const message = say`\`${first}\` opens something, and a line that opens has no colon. Write \`${better}\`. What follows is left aside until this is mended.`;
  const fixes = whole
    ? [replace({ start: at, end: parts.value.start }, '', false, say('Take the colon out'))]
    : [];
  return {
    meaning: { form: 'broken-opener', level: levelOf(first) },
    problems: [problem('opener-incomplete', span, message, fixes)],
  };
}

function sectionsOf(label: string): SectionKind[] {
  return OPENERS.filter((section) => VOCABULARY.statements[section].some((each) => each.word === label));
}

const A: Readonly<Record<SectionKind, string>> = {
  kit: later('a kit'),
  movement: later('a movement'),
  client: later('a client'),
  group: later('a group'),
  program: later('a program'),
  block: later('a block'),
  day: later('a day'),
  circuit: later('a circuit'),
  log: later('a log'),
};

function outside(parts: Parts, place: Place): Read {
  const owners = sectionsOf(parts.label);
  const shownLabel = shown(`${parts.source.slice(parts.labelSpan.start, parts.labelSpan.end)}:`);
  const where =
    place.section === 'none'
      ? say('before anything is opened')
      : say`in ${said(A[place.section as SectionKind])}`;
  const belongs =
    owners.length > 0
      ? say`It belongs in ${orList(owners.map((each) => said(A[each])))}.`
      : say('A row belongs in a day; open one with `day NAME` first.');
  return broken([
    problem(
      'out-of-place',
      parts.labelSpan,
      say`${shownLabel} stands ${where}, where it means nothing. ${belongs}`,
    ),
  ]);
}

/** A label that this section does not have. */
function misplaced(parts: Parts, place: Place): Read {
  const section = place.section as SectionKind;
  const known = VOCABULARY.statements[section].map((each) => each.word);
  const near = nearest(parts.label, known);
  const elsewhere = sectionsOf(parts.label).length > 0;
  const written = parts.source.slice(parts.value.start, parts.value.end);
  const maybe =
    near === null &&
    !elsewhere &&
    section !== 'program' &&
    section !== 'block' &&
    !holdsValues(written, section);
  const hidden = maybe ? hiddenOpener(parts.source, parts.content, place, true) : null;
  if (hidden !== null) return hidden;
  if (elsewhere || ((section === 'program' || section === 'block') && near === null))
    return outside(parts, place);
  const ask =
    near === null
      ? say`It takes ${orList(known.map((each) => `\`${each}:\``))}.`
      : say`Did you mean \`${near}:\`?`;
  const fixes = near === null ? [] : [replace(parts.labelSpan, near)];
  return broken([
    problem(
      'unknown-label',
      parts.labelSpan,
      say`${shown(`${parts.label}:`)} is no statement of ${said(A[section])}. ${ask}`,
      fixes,
    ),
  ]);
}

function readRow(parts: Parts, place: Place): Read {
  const named = movementOf(parts.source, parts.labelSpan);
  if ('code' in named) return openerOf(parts, place) ?? broken([named]);
  const inCircuit = place.section === 'circuit';
  const reading = lineParser().row(
    parts.source,
    parts.value,
    { circuit: inCircuit, like: place.like },
    parts.labelSpan,
  );
  if (reading.value === undefined) {
    const stopped = stoppedProblem(
      parts.source,
      parts.value,
      reading.stopped?.at ?? null,
      say('The row'),
      'back squat: 3x6 r2 | 4x',
    );
    return broken([...reading.problems, stopped]);
  }
  if (reading.problems.length > 0) {
    const slip = notARow(parts, place);
    if (slip !== null) return slip;
  }
  const node: ast.RowNode = {
    kind: 'row',
    movement: named.movement,
    label: named.label,
    nameSpan: parts.labelSpan,
    cells: reading.value,
    allows: [],
    span: parts.content,
  };
  return { meaning: { form: 'statement', node }, problems: reading.problems };
}

/** A line in a day that cannot be read as a row and whose label is another statement's, or nearly so. */
function notARow(parts: Parts, place: Place): Read | null {
  if (sectionsOf(parts.label).length > 0) return outside(parts, place);
  const opener = openerOf(parts, place) ?? hiddenOpener(parts.source, parts.content, place, true);
  if (opener !== null) return opener;
  // An `end` is still to come and no circuit is open: a line that resembles its opener is what is left of it.
  if (
    place.section === 'day' &&
    place.endAhead &&
    /^[^:]*c[:i]|rounds?\b|every/i.test(parts.source.slice(parts.content.start, parts.content.end))
  ) {
    const message = say(
      'A circuit is opened without a colon, such as `circuit Finisher, 3 rounds`. What follows up to `end` is left aside until this is mended.',
    );
    return {
      meaning: { form: 'broken-opener', level: 'circuit' },
      problems: [problem('opener-incomplete', parts.content, message)],
    };
  }
  const known = VOCABULARY.statements[place.section as SectionKind].map((each) => each.word);
  const near = nearest(parts.label, known);
  if (near === null) return null;
  const message = say`${shown(`${parts.label}:`)} cannot be read as a row. Did you mean \`${near}:\`?`;
  return broken([problem('unknown-label', parts.labelSpan, message, [replace(parts.labelSpan, near)])]);
}

/** Only rows go on over several lines; a `|` line below anything else is a mistake of its own. */
function firstLineOnly(parts: Parts, read: (first: Parts) => Read): Read {
  const { source, content, value } = parts;
  const lineEnd = source.slice(content.start, content.end).search(/[\r\n]/);
  if (lineEnd < 0) return read(parts);
  const first = trimmedSpan(source, content.start, content.start + lineEnd);
  const rest = trimmedSpan(source, first.end, content.end);
  const stray = problem(
    'out-of-place',
    { start: rest.start, end: rest.start + 1 },
    say(
      'A line that starts with `|` goes on with a row, and the line above is none. Put it directly under its row.',
    ),
  );
  const done = read({ ...parts, content: first, value: { start: value.start, end: first.end } });
  return { ...done, problems: [...done.problems, stray] };
}

function readDone(parts: Parts, place: Place): Read {
  const named = movementOf(parts.source, parts.labelSpan);
  if ('code' in named) return openerOf(parts, place) ?? broken([named]);
  const plain = plainDone(parts.source, parts.value);
  if (plain !== null) return doneLine(parts, named, plain);
  const parser = lineParser();
  const reading = parser.read(parser.done, parts.source, parts.value);
  if (reading.stopped !== null || reading.value === undefined) {
    const opener = openerOf(parts, place) ?? hiddenOpener(parts.source, parts.content, place, true);
    if (opener !== null) return opener;
    const at = reading.stopped?.at ?? null;
    return broken([
      ...reading.problems,
      stoppedProblem(parts.source, parts.value, at, say('What was done'), 'back squat: 45kg 6 6 6 5 r1'),
    ]);
  }
  if (reading.problems.length > 0) return broken(reading.problems);
  return doneLine(parts, named, reading.value);
}

function doneLine(
  { labelSpan, content }: Parts,
  { movement, label }: Pick<ast.LogLine & { kind: 'done' }, 'movement' | 'label'>,
  { groups, asPlanned, skipped }: Pick<ast.LogLine & { kind: 'done' }, 'groups' | 'asPlanned' | 'skipped'>,
): Read {
  const node: ast.LogLine = {
    kind: 'done',
    movement,
    label,
    nameSpan: labelSpan,
    insteadOf: null,
    groups,
    asPlanned,
    skipped,
    span: content,
  };
  return { meaning: { form: 'statement', node }, problems: [] };
}
