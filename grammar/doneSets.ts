import type { IToken } from 'chevrotain';
import type { CellItem, DoneGroup, DoneSet } from './ast.js';
import { problem, shown } from './messages.js';
import type { Span } from './problem.js';
import { say } from './say.js';
import { plain } from './slips.js';
import { spanOf } from './tokens.js';
import { type Report, secondsOf } from './values.js';

/** What was written of one group of sets done: items as in a cell, and bare counts. */
export interface DoneParts {
  items: CellItem[];
  sets: IToken[];
}

const LOADS: readonly CellItem['kind'][] = ['load', 'bodyweight', 'pack', 'band'];

/** `45kg 6 6 6 5 r1`: a load, what each set came to, and what was left at the end. Null after a report. */
export function doneGroup(parts: DoneParts, report: Report): DoneGroup | null {
  let load: CellItem | null = null;
  let reserve: number | null = null;
  const sets: DoneSet[] = [];
  const spans: Span[] = [];
  let sound = true;
  const wrong = (span: Span, message: string): void => {
    sound = false;
    report(problem('syntax', span, message));
  };
  for (const item of parts.items) {
    spans.push(item.span);
    if (LOADS.includes(item.kind)) {
      if (load !== null)
        wrong(item.span, say('One group of sets has one load. Put sets with another load after `;`.'));
      load = item;
    } else if (item.kind === 'reserve') {
      if (reserve !== null) wrong(item.span, say('The effort is said twice here. Leave one out.'));
      reserve = item.reserve;
    } else if (item.kind === 'dose') {
      const done = doseDone(item);
      if (done === null)
        wrong(
          item.span,
          say('What was done is exact: write each set, such as `6 6 5`, or `3x6` for three sets alike.'),
        );
      else sets.push(...done);
    } else {
      wrong(
        item.span,
        say(
          'A log says what was done: a load, the reps of each set and what was left, such as `45kg 6 6 5 r1`.',
        ),
      );
    }
  }
  for (const part of parts.sets) {
    spans.push(spanOf(part));
    const done = setDone(part, report);
    if (done === null) sound = false;
    else sets.push(done);
  }
  sets.sort((one, other) => one.span.start - other.span.start);
  if (!sound) return null;
  const start = Math.min(...spans.map((span) => span.start));
  const end = Math.max(...spans.map((span) => span.end));
  return { load, sets, reserve, span: { start, end } };
}

function doseDone(item: CellItem & { kind: 'dose' }): DoneSet[] | null {
  const { amount, span } = item;
  const empty = { reps: null, rightReps: null, seconds: null, metres: null, span };
  let one: DoneSet | null = null;
  if (amount?.kind === 'seconds') one = { ...empty, seconds: amount.seconds };
  else if (amount?.kind === 'metres') one = { ...empty, metres: amount.metres };
  else if (
    amount?.kind === 'reps' &&
    amount.reps.kind === 'count' &&
    amount.reps.lower === amount.reps.upper
  ) {
    one = { ...empty, reps: amount.reps.lower };
  }
  return one === null ? null : Array<DoneSet>(item.sets ?? 1).fill(one);
}

function setDone(part: IToken, report: Report): DoneSet | null {
  const span = spanOf(part);
  const empty = { reps: null, rightReps: null, seconds: null, metres: null, span };
  const word = plain(part.image);
  switch (part.tokenType.name) {
    case 'Duration': {
      const seconds = secondsOf(part.image, span, report);
      return seconds === null ? null : { ...empty, seconds };
    }
    case 'Metres':
      return { ...empty, metres: Number.parseFloat(word) };
    default: {
      const [reps, rightReps] = word.split('/').map(Number) as [number, number?];
      if (reps <= 199 && (rightReps ?? 0) <= 199) return { ...empty, reps, rightReps: rightReps ?? null };
      report(
        problem(
          'out-of-range',
          span,
          say`${shown(part.image)} is more reps than a set can have. Was a space left out?`,
        ),
      );
      return null;
    }
  }
}
