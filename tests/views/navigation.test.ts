import { describe, expect, it } from 'vitest';
import type { EngineSession } from '../../server/src/engine/session.js';
import { applyEdits } from '../../server/src/engine/views/format.js';
import {
  definition,
  highlights,
  prepareRename,
  references,
  rename,
} from '../../server/src/engine/views/navigation.js';
import { SMALL, sessionOf, WINTER } from './workspace.js';

const MOVEMENT = 'movement tempo squat\n  pattern: squat\n  with: barbell\n  estimate: 80% of back squat\n';
const FILES = {
  ...SMALL,
  'movements.stave': MOVEMENT,
  'winter.stave': WINTER.replace('box squat', 'tempo squat'),
};

function place(session: EngineSession, file: string, words: string): number {
  const at = (session.text(file) as string).indexOf(words);
  expect(at).toBeGreaterThanOrEqual(0);
  return at + 1;
}

function renamed(file: string, words: string, name: string): Record<string, string> {
  const session = sessionOf(FILES);
  const result = rename(session, file, place(session, file, words), name);
  if (!result.ok) throw new Error(result.because);
  const edited = new Map<string, { span: { start: number; end: number }; newText: string }[]>();
  for (const edit of result.edits) edited.set(edit.file, [...(edited.get(edit.file) ?? []), edit]);
  return Object.fromEntries(
    [...edited].map(([key, edits]) => [key, applyEdits(session.text(key) as string, edits)]),
  );
}

function refused(file: string, words: string, name: string): string {
  const session = sessionOf(FILES);
  const result = rename(session, file, place(session, file, words), name);
  return result.ok ? '' : result.because;
}

describe('definition and references', () => {
  const session = sessionOf(FILES);

  it('finds the definition in another file, and none for what is built in', () => {
    const [found] = definition(session, 'winter.stave', place(session, 'winter.stave', 'tempo squat'));
    expect(found).toEqual({ file: 'movements.stave', span: { start: 9, end: 20 } });
    expect(definition(session, 'winter.stave', place(session, 'winter.stave', 'back squat'))).toEqual([]);
  });

  it('finds every use, with the definition when asked', () => {
    const at = place(session, 'clients.stave', 'Winter');
    expect(references(session, 'clients.stave', at, false).map(({ file }) => file)).toEqual([
      'clients.stave',
      'clients.stave',
    ]);
    expect(references(session, 'clients.stave', at, true)).toHaveLength(3);
  });

  it('highlights in one file only', () => {
    const at = place(session, 'clients.stave', 'back squat');
    expect(highlights(session, 'clients.stave', at)).toHaveLength(2);
  });

  it('finds nothing where no name stands', () => {
    expect(definition(session, 'winter.stave', place(session, 'winter.stave', '3x6'))).toEqual([]);
    expect(references(session, 'winter.stave', 100000, true)).toEqual([]);
  });
});

describe('rename', () => {
  it('changes every file', () => {
    expect(renamed('winter.stave', 'tempo squat', 'slow  squat')).toEqual({
      'movements.stave': MOVEMENT.replace('tempo squat', 'slow squat'),
      'winter.stave': FILES['winter.stave'].replace('tempo squat', 'slow squat'),
    });
    expect(Object.keys(renamed('clients.stave', 'Winter', 'Frost')).sort()).toEqual([
      'clients.stave',
      'winter.stave',
    ]);
    expect(renamed('winter.stave', 'Keel', 'Second keel')['winter.stave']).toContain(
      'block Second keel, 3 weeks',
    );
  });

  it('lets the capitals of a name change', () => {
    expect(renamed('clients.stave', 'Heron', 'HERON')['clients.stave']).toContain('client HERON\n');
  });

  it('refuses characters that part things, empty names and names that are taken', () => {
    for (const name of ['a: b', 'a, b', 'a | b', 'a; b', 'a "b"', ' ', 'a -- b']) {
      expect(refused('clients.stave', 'Heron', name), name).not.toBe('');
    }
    expect(refused('clients.stave', 'Heron', 'wren')).toContain('already');
    expect(refused('winter.stave', 'tempo squat', 'Back squat')).toContain('already');
    expect(refused('winter.stave', 'tempo squat', 'squat (slow)')).toContain('brackets');
  });

  it('refuses a name that would be read as something else in a row', () => {
    expect(refused('winter.stave', 'tempo squat', 'effort')).toContain('read as something else');
  });

  it('refuses what is built in, and says the name that it would change', () => {
    expect(refused('winter.stave', 'back squat', 'low squat')).toContain('built in');
    const session = sessionOf(FILES);
    expect(prepareRename(session, 'winter.stave', place(session, 'winter.stave', 'back squat'))).toBeNull();
    expect(prepareRename(session, 'clients.stave', place(session, 'clients.stave', 'Heron'))).toEqual({
      span: { start: 7, end: 12 },
      name: 'Heron',
    });
  });
});
