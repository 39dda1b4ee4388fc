/** Repairs hold: they come to an end, and none of them leaves text behind that the notation does not take. */

import { describe, expect, it } from 'vitest';
import type { FindingFix } from '../../server/src/engine/model.js';
import { RULES } from '../../server/src/engine/rules/index.js';
import { createSession, type EngineSession } from '../../server/src/engine/session.js';
import { fixAll } from '../../server/src/engine/views/fixAll.js';
import { applyEdits } from '../../server/src/engine/views/format.js';
import { quickFixes, safeFixes } from '../../server/src/engine/views/quickFixes.js';
import { Random } from './random.js';
import { sampleFolder } from './samples.js';

type Files = ReadonlyMap<string, string>;

function open(files: Files): EngineSession {
  const session = createSession({ today: '2026-12-01' });
  for (const [file, text] of files) session.setFile(file, text);
  return session;
}

const errorsIn = (session: EngineSession): number =>
  session
    .files()
    .flatMap((file) => session.tree(file)?.problems ?? [])
    .filter(({ severity }) => severity === 'error').length;

/** Mistakes that do not touch the line of an edit. Repairs of the notation keep to one line. */
function errorsOffLines(session: EngineSession, edits: FindingFix['edits']): number {
  const lineOf = (file: string, offset: number) =>
    `${file}:${(session.text(file) ?? '').slice(0, offset).split('\n').length}`;
  const lines = new Set(edits.map(({ file, span }) => lineOf(file, span.start)));
  return session
    .files()
    .flatMap((file) =>
      (session.tree(file)?.problems ?? []).filter(
        ({ severity, span }) => severity === 'error' && !lines.has(lineOf(file, span.start)),
      ),
    ).length;
}

/** Takes a repair; returns what undoes it. */
function take(session: EngineSession, edits: FindingFix['edits']): () => void {
  const before = new Map<string, string>();
  for (const file of new Set(edits.map((edit) => edit.file))) {
    const text = session.text(file) ?? '';
    before.set(file, text);
    session.setFile(
      file,
      applyEdits(
        text,
        edits.filter((edit) => edit.file === file),
      ),
    );
  }
  return () => {
    for (const [file, text] of before) session.setFile(file, text);
  };
}

const PIECES = [
  '',
  ' ',
  '×',
  '4X6',
  'R2',
  '2,5kg',
  '|',
  '%',
  '5%',
  '3m',
  ';',
  ':',
  'x',
  '9',
  '60kg',
  '.5kg',
  '4 x 6',
];

/** What stands in place of a word after a slip. */
function slipped(word: string, random: Random): string {
  const made = [
    `${word} ${word}`,
    word.slice(1),
    word.toUpperCase(),
    `${word}\n  allow: stuck "no reason"\n`,
  ];
  return random.pick([...PIECES, ...made, ...(/^\d+-/.test(word) ? [word.replaceAll('-', '/')] : [])]);
}

/** The files with one slip: a word lost, doubled or put in its place. */
function withSlip(files: Files, random: Random): { readonly files: Files; readonly slip: string } {
  const file = random.pick([...files.keys()]);
  const text = files.get(file) ?? '';
  const words = [...text.matchAll(/\S+/g)];
  const word = random.pick(words);
  const end = word.index + word[0].length;
  const piece = slipped(word[0], random);
  const now = text.slice(0, word.index) + piece + text.slice(end);
  return {
    files: new Map(files).set(file, now),
    slip: `${file}: "${word[0]}" at ${word.index} → "${piece}"`,
  };
}

const FOLDERS = [
  { name: 'winter', runs: 150 },
  { name: 'boathouse', runs: 25 },
] as const;

describe.each(FOLDERS)('repairs of samples/$name and of the same with slips', ({ name, runs }) => {
  const files = sampleFolder(name);
  const random = new Random(20261201);
  const cases = [{ files, slip: 'as it is' }, ...Array.from({ length: runs }, () => withSlip(files, random))];

  it('safe ones come to an end, leave none, add no mistake and no finding of a rule', () => {
    let repaired = 0;
    for (const { files, slip } of cases) {
      const session = open(files);
      const before = errorsIn(session);
      repaired += fixAll(session, session.files()).size;
      const left = session.files().flatMap((file) => safeFixes(session, file));
      expect(left, slip).toEqual([]);
      expect(errorsIn(session), slip).toBeLessThanOrEqual(before);
      expect(fixAll(session, session.files()).size, slip).toBe(0);
    }
    // Slips that have a safe repair are among them, or this proves nothing.
    expect(repaired).toBeGreaterThan(0);
  }, 120_000);

  it('each alone adds no mistake, or at most tells more of the broken line that it mends', () => {
    let taken = 0;
    for (const { files, slip } of cases) {
      const session = open(files);
      const before = errorsIn(session);
      for (const file of session.files()) {
        const length = session.text(file)?.length ?? 0;
        const actions = quickFixes(session, file, { start: 0, end: length });
        for (const { title, edits, finding, safe } of actions) {
          const elsewhere = errorsOffLines(session, edits);
          const undo = take(session, edits);
          // A line of which nothing could be read has one mistake; once it can be read, it may have two.
          const ofRule = RULES.some(({ code }) => code === finding.code);
          if (safe || ofRule) expect(errorsIn(session), `${slip}; ${title}`).toBeLessThanOrEqual(before);
          else expect(errorsOffLines(session, edits), `${slip}; ${title}`).toBeLessThanOrEqual(elsewhere);
          undo();
          taken += 1;
        }
      }
    }
    expect(taken).toBeGreaterThan(cases.length);
  }, 120_000);

  it('taken one after the other they come to an end', () => {
    for (const { files, slip } of cases.slice(0, name === 'winter' ? 60 : 6)) {
      const session = open(files);
      const seen = new Set<string>();
      for (;;) {
        const state = session
          .files()
          .map((file) => session.text(file))
          .join('\0');
        expect(seen.has(state), `${slip}: goes in a circle`).toBe(false);
        seen.add(state);
        expect(seen.size, `${slip}: does not end`).toBeLessThan(60);
        const fix = session
          .allFindings()
          .flatMap((finding) => finding.fixes)
          .find(({ title }) => !/^Allow /.test(title));
        if (!fix) break;
        take(session, fix.edits);
      }
    }
  }, 120_000);
});

describe('the repairs of every rule', () => {
  it.each(RULES.map((rule) => [rule.code, rule] as const))('%s: add no mistake to its example', (_, rule) => {
    const session = createSession({ severities: { [rule.code]: 'warning' } });
    session.setFile('a', rule.example);
    const before = errorsIn(session);
    for (const { title, edits } of session.allFindings().flatMap((finding) => finding.fixes)) {
      const undo = take(session, edits);
      expect(errorsIn(session), title).toBeLessThanOrEqual(before);
      undo();
    }
  });
});
