import * as ast from './ast.js';
import type { SwapDone } from './logRules.js';
import { insert, problem, shown } from './messages.js';
import { movementOf } from './movementName.js';
import { type LineParser, lineParser, type Reading } from './parser.js';
import type { Problem, Span } from './problem.js';
import { type LineMeaning, trimmedSpan } from './readLine.js';
import { say } from './say.js';
import type { Unplaced } from './statementRules.js';
import { stoppedProblem } from './stopped.js';
import { nameAt } from './values.js';
import type { SectionKind, StatementEntry } from './vocabulary.js';

/** A statement in its place. */
export type Placed =
  | ast.KitLine
  | ast.MovementLine
  | ast.ClientLine
  | ast.LogLine
  | ast.RowNode
  | ast.EffortNode
  | ast.RoundsNode
  | ast.PrintedTextNode
  | { readonly kind: 'aim'; readonly aim: ast.Word<ast.AimName>; readonly span: Span }
  | { readonly kind: 'members'; readonly members: readonly ast.Name[]; readonly span: Span };

/** What a line says, and what is wrong with it. */
export interface Read {
  readonly meaning: LineMeaning;
  readonly problems: readonly Problem[];
}

/** The parts of a labelled line. */
export interface Parts {
  readonly source: string;
  readonly content: Span;
  readonly label: string;
  readonly labelSpan: Span;
  readonly value: Span;
}

export const broken = (problems: readonly Problem[]): Read => ({ meaning: { form: 'broken' }, problems });

/** Reads the value of a known statement; anything reported in it leaves no node. */
export function finish(parts: Parts, entry: StatementEntry, section: SectionKind): Read {
  const reading = statementValue(parts, entry.word, section);
  if (reading.stopped !== null) {
    const stopped = stoppedProblem(
      parts.source,
      parts.value,
      reading.stopped.at,
      `\`${entry.word}:\``,
      entry.example,
      'syntax',
      NAME_FIRST.has(entry.word),
    );
    return broken([...reading.problems, stopped]);
  }
  const node = reading.value ?? null;
  if (node === null || reading.problems.length > 0) return broken(reading.problems);
  return { meaning: { form: 'statement', node: { ...node, span: parts.content } as Placed }, problems: [] };
}

/** Statements that begin with a name, which only a comma ends. */
const NAME_FIRST: ReadonlySet<string> = new Set(['max', 'swap', 'avoid', 'follows', 'trains at']);

type Value = Unplaced<Placed> | null;

function statementValue(parts: Parts, word: string, section: SectionKind): Reading<Value> {
  const parser = lineParser();
  const read = <From>(rule: () => From): Reading<From> => parser.read(rule, parts.source, parts.value);
  switch (word) {
    case 'effort':
      return effort(parts, parser);
    case 'allow':
      return read(parser.allow);
    case 'follows':
      return read(parser.follows);
    case 'members':
      return map(read(parser.members), (members) => ({ kind: 'members', members }));
    case 'rounds':
      return map(read(parser.roundsByWeek), (cells) => ({ kind: 'rounds', cells }));
    case 'aim':
      return oneWord(parser, read(parser.onlyName), say('The aim'), ast.AIM_NAMES, (aim) => ({
        kind: 'aim',
        aim,
      }));
    default:
      break;
  }
  if (section === 'kit') return kitValue(parts, word, parser, read);
  if (section === 'movement') return movementValue(word, parser, read);
  if (section === 'log') return logValue(parts, word, parser, read);
  return clientValue(word, parser, read);
}

function map<From>(reading: Reading<From>, change: (value: From) => Value): Reading<Value> {
  return { ...reading, value: reading.value === undefined ? undefined : change(reading.value) };
}

/** A statement whose value is one word of a closed list. */
function oneWord<Known extends string>(
  parser: LineParser,
  reading: Reading<ast.Name>,
  what: string,
  list: readonly Known[],
  change: (known: ast.Word<Known>) => Value,
): Reading<Value> {
  if (reading.value === undefined) return { ...reading, value: undefined };
  const checked = parser.check(reading.value, what, list);
  if ('code' in checked) return { value: null, problems: [...reading.problems, checked], stopped: null };
  return { value: change(checked), problems: reading.problems, stopped: null };
}

type ReadRule = <From>(rule: () => From) => Reading<From>;

function kitValue(parts: Parts, word: string, parser: LineParser, read: ReadRule): Reading<Value> {
  switch (word) {
    case 'bar': {
      const name = labelRest(parts, 'bar');
      return map(read(parser.barMass), (mass) => mass && { kind: 'bar', name, mass });
    }
    case 'machine': {
      const name = labelRest(parts, 'machine');
      if (name === null) {
        const found = problem(
          'syntax',
          parts.labelSpan,
          say('A machine has a name before the colon, such as `machine leg press: 20kg to 120kg by 5kg`.'),
          [insert(parts.labelSpan.end, ' NAME', say('Put a name there'))],
        );
        return { value: null, problems: [found], stopped: null };
      }
      return map(read(parser.machine), (machine) => ({ kind: 'machine', name, ...machine }));
    }
    case 'pack':
      return read(parser.packStock) as Reading<Value>;
    case 'bands':
      return map(read(parser.bands), (bands) => ({ kind: 'bands', bands }));
    case 'plates':
      return map(read(parser.plates), (stock) => ({ kind: 'plates', stock }));
    default:
      return map(read(parser.stocks), (stock) => ({ kind: word as 'dumbbells' | 'kettlebells', stock }));
  }
}

/** The name in a label: `technique` in `bar technique`. */
function labelRest(parts: Parts, word: string): ast.Name | null {
  const rest = trimmedSpan(parts.source, parts.labelSpan.start + word.length, parts.labelSpan.end);
  return rest.end > rest.start ? nameAt(parts.source, rest.start, rest.end) : null;
}

function movementValue(word: string, parser: LineParser, read: ReadRule): Reading<Value> {
  switch (word) {
    case 'pattern':
      return oneWord(parser, read(parser.onlyName), say('The pattern'), ast.PATTERN_NAMES, (pattern) => ({
        kind: 'pattern',
        pattern,
      }));
    case 'with':
      return read(parser.withWhat) as Reading<Value>;
    case 'bar':
      return map(read(parser.onlyName), (bar) => ({ kind: 'bar', bar }));
    case 'stage':
      return oneWord(parser, read(parser.onlyName), say('The stage'), ast.STAGE_NAMES, (stage) => ({
        kind: 'stage',
        stage,
      }));
    case 'easier':
    case 'harder':
      return map(read(parser.onlyName), (movement) => ({ kind: word, movement }));
    case 'estimate':
      return read(parser.estimate) as Reading<Value>;
    case 'lifts':
      return read(parser.lifts) as Reading<Value>;
    default:
      return map(read(parser.onlyText), (text) => ({ kind: 'cue', text }));
  }
}

function logValue(parts: Parts, word: string, parser: LineParser, read: ReadRule): Reading<Value> {
  if (word === 'swap') return swapValue(parts, read(parser.swapDone));
  if (word === 'session') return read(parser.session) as Reading<Value>;
  if (word === 'pain') return read(parser.pain) as Reading<Value>;
  return map(read(parser.onlyText), (text) => ({ kind: 'note', text }));
}

/** A swap done on the day is what was done, and what it was done instead of. */
function swapValue(parts: Parts, reading: Reading<SwapDone | null>): Reading<Value> {
  const { value } = reading;
  if (value === undefined || value === null) return { ...reading, value };
  const row = movementOf(parts.source, value.row.span);
  if ('code' in row) return { value: null, problems: [...reading.problems, row], stopped: null };
  const { to, groups, reason } = value;
  const done: Value = {
    kind: 'done',
    movement: to,
    label: null,
    nameSpan: to.span,
    insteadOf: { ...row, reason },
    groups,
    asPlanned: false,
    skipped: null,
  };
  return { ...reading, value: done };
}

function clientValue(word: string, parser: LineParser, read: ReadRule): Reading<Value> {
  const rules: Readonly<Record<string, () => Unplaced<ast.ClientLine> | null>> = {
    born: parser.born,
    height: parser.height,
    mass: parser.mass,
    units: parser.units,
    'lifting since': parser.liftingSince,
    screened: parser.screened,
    condition: parser.condition,
    'trains at': parser.trainsAt,
    curve: parser.curve,
    rounding: parser.rounding,
    care: parser.care,
    ready: parser.ready,
    max: parser.max,
    avoid: parser.avoid,
    swap: parser.swap,
    away: parser.away,
  };
  const rule = rules[word];
  return rule === undefined ? { value: null, problems: [], stopped: null } : (read(rule) as Reading<Value>);
}

/** `effort: r3 | r2 | r1`: cells that hold an effort and nothing else. */
function effort(parts: Parts, parser: LineParser): Reading<Value> {
  const reading = parser.read(parser.cells, parts.source, parts.value);
  if (reading.value === undefined) return { ...reading, value: undefined };
  const problems = [...reading.problems];
  const cells = reading.value.map((cell) => {
    const items = cell.groups.flatMap((group) => group.items);
    const first = items[0];
    if (cell.groups.length === 0) return null;
    if (cell.groups.length === 1 && items.length === 1 && first?.kind === 'reserve')
      return { reserve: first.reserve, span: first.span };
    if (!cell.broken) {
      problems.push(
        problem(
          'syntax',
          cell.span,
          say`\`effort:\` has one effort a week, such as \`r3 | r2 | r1\`. Found ${shown(parts.source.slice(cell.span.start, cell.span.end))}.`,
        ),
      );
    }
    return null;
  });
  if (problems.length === 0 && cells[0] === null) {
    problems.push(
      problem(
        'first-cell',
        parts.labelSpan,
        say('`effort:` begins with the effort of week 1, such as `effort: r3 | r2 | r1`.'),
      ),
    );
  }
  return { value: { kind: 'effort', cells }, problems, stopped: null };
}
