import type { Place } from '../../model.js';
import type { EngineSession } from '../../session.js';
import { lineSpanAt } from '../text.js';

/** A line of a file that something rests on. */
export interface SourceLine {
  readonly place: Place;
  /** From 1. */
  readonly line: number;
  /** The whole line, without the spaces around it and without the coach's note. */
  readonly text: string;
}

/** The line in which a place begins. */
export function sourceLine(session: EngineSession, place: Place): SourceLine {
  const text = session.text(place.file) ?? '';
  const { start, end } = lineSpanAt(text, place.span.start);
  const line = text.slice(0, start).split(/\r\n|\r|\n/).length;
  const note = session
    .tree(place.file)
    ?.value.comments.find(({ span }) => start <= span.start && span.start <= end);
  return { place, line, text: text.slice(start, note?.span.start ?? end).trim() };
}
