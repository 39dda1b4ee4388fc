import { describe, expect, it } from 'vitest';
import type { EngineSession } from '../../server/src/engine/session.js';
import { applyEdits } from '../../server/src/engine/views/format.js';
import { type Action, quickFixes, safeFixes } from '../../server/src/engine/views/quickFixes.js';
import { WORKED } from './samples.js';
import { SMALL, sessionOf, WINTER } from './workspace.js';

function offered(session: EngineSession, file: string): Action[] {
  return quickFixes(session, file, { start: 0, end: (session.text(file) as string).length });
}

/** Takes an action and returns the session after it. */
function taken(session: EngineSession, action: Action): EngineSession {
  for (const file of new Set(action.edits.map((edit) => edit.file))) {
    const own = action.edits.filter((edit) => edit.file === file);
    session.setFile(file, applyEdits(session.text(file) as string, own));
  }
  return session;
}

describe('quick fixes', () => {
  it('allow a finding under its row, with words to replace selected', () => {
    const session = sessionOf({ a: WORKED });
    const allow = offered(session, 'a').find(({ kind }) => kind === 'allow') as Action;
    expect(allow.title).toBe('Allow stuck for this row, with a reason');
    taken(session, allow);
    const text = session.text('a') as string;
    expect(text).toContain('+2% weekly\n    allow: stuck "why"\n');
    expect(text.slice(allow.select?.span.start, allow.select?.span.end)).toBe('why');
    expect(session.findings('a')).toEqual([]);
  });

  it('allow under the last line of a continued row, past its note, with the line breaks of the file', () => {
    const rows = WORKED.replace('|    | +2% weekly', '|\n    | | +2% weekly -- slowly').replace(
      /\n/g,
      '\r\n',
    );
    const session = sessionOf({ a: rows });
    const allow = offered(session, 'a').find(({ kind }) => kind === 'allow') as Action;
    taken(session, allow);
    expect(session.text('a')).toContain('weekly -- slowly\r\n    allow: stuck "why"\r\n');
    expect(session.findings('a')).toEqual([]);
  });

  it('offer the name that was meant, and no allowing of an unknown one', () => {
    const session = sessionOf({ ...SMALL, 'winter.stave': WINTER.replace('box squat', 'bx squat') });
    const actions = offered(session, 'winter.stave').filter(({ finding }) => finding.code === 'unknown-name');
    expect(actions.map(({ kind }) => kind)).toEqual(['fix']);
    expect(taken(session, actions[0] as Action).text('winter.stave')).toContain('  box squat: 3x8 r3');
  });

  it('offer the repair of a slip in the notation', () => {
    const session = sessionOf({ ...SMALL, 'winter.stave': WINTER.replace('3x8 r3', '3x8 2,5kg') });
    const action = offered(session, 'winter.stave').find(({ title }) => title.includes('2.5kg')) as Action;
    expect(taken(session, action).text('winter.stave')).toContain('3x8 2.5kg');
  });

  it('offer a max line to fill in, without a number of their own', () => {
    const session = sessionOf(SMALL);
    const action = offered(session, 'winter.stave').find(
      ({ finding }) => finding.code === 'max-unknown',
    ) as Action;
    const before = session.world().clients.get('heron')?.maxes.length;
    taken(session, action);
    expect(session.text('clients.stave')).toContain('max: box squat');
    expect(session.world().clients.get('heron')?.maxes.length).toBe(before);
  });

  it('answer for the span that is asked for only', () => {
    const session = sessionOf({ a: WORKED });
    expect(quickFixes(session, 'a', { start: 0, end: 10 })).toEqual([]);
  });

  it('collect safe repairs that do not touch each other', () => {
    const session = sessionOf({ ...SMALL, 'winter.stave': `${WINTER}    allow: stuck "old"\n` });
    const edits = safeFixes(session, 'winter.stave');
    expect(edits.length).toBeGreaterThan(0);
    expect(applyEdits(session.text('winter.stave') as string, edits)).not.toContain('allow');
  });
});
