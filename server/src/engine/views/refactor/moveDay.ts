import type { BlockNode } from '../../../../../grammar/index.js';
import { say } from '../../../../../grammar/say.js';
import { logsOf } from '../../history/done.js';
import { lineSpanAt, touches } from '../text.js';
import { startWithNotes } from './notesAbove.js';
import { type RefactorContext, type Refactoring, type RefactorResult, refuse, tried } from './refactoring.js';

/** Moves a day of a block before or behind its neighbour. Blocks that are like another take its order of days. */
export function moveDay(context: RefactorContext): Refactoring[] {
  const { session, file, offset } = context;
  const programs = session.tree(file)?.value.sections ?? [];
  for (const program of programs) {
    if (program.kind !== 'program') continue;
    for (const block of program.blocks) {
      const at = block.days.findIndex(({ headerSpan }) => touches(headerSpan, offset));
      const day = block.days[at];
      if (!day || block.like) continue;
      const move = (other: number, title: (name: string) => string): Refactoring[] =>
        block.days[other]
          ? [
              {
                title: title(block.days[other].name.text),
                kind: 'refactor.move',
                build: () => exchange(context, program.name.key, block, Math.min(at, other)),
              },
            ]
          : [];
      return [
        ...move(at - 1, (other) => say`Move day ${day.name.text} before ${other}`),
        ...move(at + 1, (other) => say`Move day ${day.name.text} behind ${other}`),
      ];
    }
  }
  return [];
}

/** Exchanges two days that follow each other. */
function exchange(
  { session, file }: RefactorContext,
  programKey: string,
  block: BlockNode,
  index: number,
): RefactorResult {
  const text = session.text(file) ?? '';
  const first = block.days[index];
  const second = block.days[index + 1];
  if (!first || !second) return refuse(say('There is no other day in this block.'));
  const logged = loggedIn(session, programKey, block.name.key);
  if (logged)
    return refuse(say`${logged} has trained in this block already. What was done stays where it is.`);
  const start = startWithNotes(text, first.headerSpan.start);
  const middle = startWithNotes(text, second.headerSpan.start);
  const third = block.days[index + 2];
  const end = third ? startWithNotes(text, third.headerSpan.start) : lineSpanAt(text, second.span.end).end;
  const upper = text.slice(start, middle);
  const lower = text.slice(middle, end);
  const tail = (part: string): string => /\s*$/.exec(part)?.[0] ?? '';
  const newText = lower.trimEnd() + tail(upper) + upper.trimEnd() + tail(lower);
  return tried(session, { edits: [{ file, span: { start, end }, newText }], newFiles: [] });
}

/** The name of a client who has a log in a block; null when nobody has. */
export function loggedIn(
  session: RefactorContext['session'],
  programKey: string,
  blockKey: string,
  fromWeek = 1,
): string | null {
  for (const key of session.followers(programKey)) {
    const plan = session.plan(key);
    const own = (plan?.sessions ?? []).filter(
      ({ program, block, week }) => program.key === programKey && block.key === blockKey && week >= fromWeek,
    );
    const from = own[0]?.date;
    const until = own[own.length - 1]?.date;
    if (!plan || from === undefined || until === undefined) continue;
    if (logsOf(session.world(), key).some(({ date }) => from <= date && date <= until))
      return plan.client.name;
  }
  return null;
}
