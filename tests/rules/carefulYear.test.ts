/** Two clients of a careful coach over a year: nothing that is a warning, and each note meant. All data is made up. */

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createSession, type EngineSession } from '../../server/src/engine/session.js';

const folder = new URL('../fixtures/rules/careful-year/', import.meta.url);

function open(change: (file: string, text: string) => string = (_, text) => text): EngineSession {
  const session = createSession({ today: '2027-01-03' });
  for (const file of readdirSync(folder)) {
    session.setFile(file, change(file, readFileSync(new URL(file, folder), 'utf8')));
  }
  return session;
}

const told = (session: EngineSession) =>
  session.allFindings().map(({ severity, code }) => `${severity} ${code}`);

/** What is found more once a piece of the fixture is another. */
function foundAfter(from: string, to: string): readonly string[] {
  let changed = 0;
  const session = open((_, text) => {
    changed += text.includes(from) ? 1 : 0;
    return text.replace(from, to);
  });
  expect(changed).toBe(1);
  return told(session);
}

describe('a year of two clients of a careful coach', () => {
  it('is a year', () => {
    const { sessions } = open().plan('godwit') ?? { sessions: [] };
    expect(sessions.length).toBeGreaterThan(90);
    expect(sessions[0]?.date).toBe('2027-01-04');
    expect(sessions.at(-1)?.date).toBe('2027-12-16');
  });

  it('has no warning and no error; its notes are listed', () => {
    // The beginner's first 4 kg are written, not worked out: there is nothing yet to work them out from.
    expect(told(open())).toEqual(['info load-unchecked']);
  });

  it.each([
    ['max: one-arm dumbbell row, 20kg x8 r2, 2027-05-07', '-- not tested', 'info max-stale'],
    [', back at 90%', '', 'warning back-too-fast'],
    ['back squat:             4x6 r2', 'back squat:             4x6 64kg r2', 'warning effort-mismatch'],
    ['ready: heavy squat 2025-06-01, ', 'ready: load squat 2025-06-01, ', 'warning heavy-early'],
    ['goblet squat:           3x10 r4', 'goblet squat:           3x3 r0', 'warning heavy-early'],
  ])('is no longer quiet when "%s" becomes "%s"', (from, to, code) => {
    expect(foundAfter(from, to)).toContain(code);
  });
});
