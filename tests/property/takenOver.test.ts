import { describe, expect, it } from 'vitest';
import type { Finding, Place, Severity } from '../../server/src/engine/model.js';
import { RULES } from '../../server/src/engine/rules/index.js';
import { createSession, type EngineSession } from '../../server/src/engine/session.js';
import { Random } from './random.js';

/**
 * What was found in a block is taken over while the block says the same, moved with its text. A session in which one
 * line after another is edited has to say what a fresh one says, about every block and with every rule on.
 */

const CLIENTS = `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4
  dumbbells: 4kg to 12kg by 4kg

kit Garage
  dumbbells: 2kg to 6kg by 2kg

movement box squat
  pattern: squat
  with: barbell
  easier: bodyweight squat
  stage: load

client Heron
  born: 1961-03
  lifting since: 2026-10
  trains at: Boathouse
  trains at: Garage, on thu
  ready: load squat 2026-06-01, heavy hinge 2026-06-01
  max: box squat, 47.5kg x5 r2, 2026-09-30
  max: deadlift, 70kg x12 r2, 2026-11-30
  max: overhead press, 22.5kg x6 r2, 2026-11-23
  avoid: back squat, from 2026-12-20, "knee"
  away: 2027-01-11 to 2027-02-07, back at 80% 90%
  follows: Ebb, from 2026-12-07, on mon thu sat
  allow: curve-fit "known"

client Wren
  condition: osteoporosis
  trains at: Boathouse
  mass: 61kg, 2026-11-01
  max: deadlift, 60kg x3 r0, 2026-11-30
  follows: Ebb, from 2026-12-07, on mon wed
  follows: Flood, from 2026-12-07, on tue fri, alongside

group Evening
  members: Heron, Wren
  allow: reps-past-35 "their own wish"
`;

const EBB = `-- What everybody does in winter.
program Ebb
  aim: strength
  "Have the pins set."
  allow: stage-unsigned "they are seen"

block Keel, 3 weeks, load, deload 3
effort: r3 | r2
day Lower
  box squat: 3x6 r2 rest 45s | 4x | x5
  deadlift: 3x5 90% | +12% | +2%
    allow: far-off "a test"
  split squat (left): 2x8
day Upper
  circuit Deck, 3 rounds, rest 30s
    overhead press: x8 r4
    bench press: x8 r0
  end
  bent-over row: 3x30 r2

block Mast, like Keel, +5%
day Lower
  box squat: 4x3 r1
  front plank: 2x120s

block Sail, 4 weeks, heavy
day Lower
  "Slow on the way down."
  back squat: 5x5 r1 warm | test x5 | | 25kg
  deadlift: 5x5 r0 | | +10% |
day Upper
  overhead press: 3x8 r3 | +1% weekly
  push-up: 3xmax r0
    allow: failure-early "they like it"

block Rudder, like Flood / Spring, 2 weeks

client Plover
  trains at: Nowhere
  follows: Ebb, from 2026-12-14, on mon
`;

const FLOOD = `program Flood

block Spring, 2 weeks
day Whole
  goblet squat: 3x8 r2
  hill sprint: 4x20s off 100s
  deadlift: 3x5 r1
  box squat: 3x5 r3 ; 2x5 -10%

block Neap, like Ebb / Sail, -5%
allow: effort-mismatch "as it is"
day Upper
  overhead press: -
`;

type Files = Map<string, string>;

const ALL: Files = new Map([
  ['clients.stave', CLIENTS],
  ['ebb.stave', EBB],
  ['flood.stave', FLOOD],
]);

/** Rules that are off are on here, so that every one of them is held to this. */
const EVERYTHING: Readonly<Record<string, Severity>> = Object.fromEntries(
  RULES.map(({ code, severity }) => [code, severity === 'off' ? 'info' : severity]),
);

function sessionWith(files: Files): EngineSession {
  const session = createSession({ today: '2026-12-16', severities: EVERYTHING });
  for (const [file, text] of files) session.setFile(file, text);
  return session;
}

const placeText = ({ file, span }: Place) => `${file}:${span.start}-${span.end}`;

function findingText({ code, severity, message, place, related, fixes }: Finding): string {
  return JSON.stringify([
    code,
    severity,
    message,
    placeText(place),
    related.map((line) => [placeText(line.place), line.message]),
    fixes.map(({ title, edits }) => [title, edits.map((edit) => [placeText(edit), edit.newText])]),
  ]);
}

const said = (session: EngineSession) => session.allFindings().map(findingText);

/** What people type: another number, a space, a row more or less, a line moved, a comment, a name, an indentation. */
function edited(text: string, random: Random): string {
  const lines = text.split('\n');
  const at = random.below(lines.length);
  const line = lines[at] as string;
  const offset = random.below(line.length + 1);
  const put = (next: string) => [...lines.slice(0, at), next, ...lines.slice(at + 1)].join('\n');
  switch (random.below(9)) {
    case 0:
      return put(
        line.slice(0, offset) + random.pick(['1', '2', ' ', 'r', 'x', '|', ';', '%']) + line.slice(offset),
      );
    case 1:
      return put(line.slice(0, offset) + line.slice(offset + 1));
    case 2:
      return put(line.replace(/\d/, String(1 + random.below(9))));
    case 3:
      return put(`${line}\n  lunge: 3x${6 + random.below(6)} r${random.below(5)}`);
    case 4:
      return [...lines.slice(0, at), ...lines.slice(at + 1)].join('\n');
    case 5:
      return put(`${line} -- ${'about this '.repeat(1 + random.below(3))}`);
    case 6:
      return put(`  ${line}`);
    case 7: {
      const other = random.below(lines.length);
      const swapped = [...lines];
      swapped[at] = lines[other] as string;
      swapped[other] = line;
      return swapped.join('\n');
    }
    default:
      return put(
        line.replace(
          /Keel|Mast|Ebb|Flood|Heron|Boathouse/,
          (name) => `${name}${random.pick(['', 'e', ' II'])}`,
        ),
      );
  }
}

describe('what was found in a block', () => {
  it.each(Array.from({ length: 20 }, (_, index) => index + 1))(
    'is what a fresh session finds, script %i',
    (seed) => {
      const random = new Random(seed);
      const files: Files = new Map(ALL);
      const session = sessionWith(files);
      said(session);
      for (let step = 1; step <= 8; step += 1) {
        const file = random.pick([...files.keys()]);
        const before = files.get(file) as string;
        files.set(file, edited(before, random));
        session.setFile(file, files.get(file) as string);
        expect(said(session), `step ${step}`).toEqual(said(sessionWith(files)));
        // Most slips are taken back, so that there is something left to find.
        if (random.below(3) > 0) {
          files.set(file, before);
          session.setFile(file, before);
          if (random.below(2) === 0)
            expect(said(session), `step ${step}, back`).toEqual(said(sessionWith(files)));
        }
      }
    },
  );

  it('moves with the text above it, with its fixes and the lines that it rests on', () => {
    const files: Files = new Map(ALL);
    const session = sessionWith(files);
    const before = session.findings('ebb.stave').length;
    for (let at = EBB.indexOf('Lower'); at > 0; at = EBB.indexOf('Lower', at + 1)) {
      files.set('ebb.stave', `${EBB.slice(0, at)}W${EBB.slice(at)}`);
      session.setFile('ebb.stave', files.get('ebb.stave') as string);
      session.findings('ebb.stave');
      files.set('ebb.stave', `${EBB.slice(0, at)}${EBB.slice(at)}`.replace('-- What', '-- This is what'));
      session.setFile('ebb.stave', files.get('ebb.stave') as string);
      expect(said(session)).toEqual(said(sessionWith(files)));
      expect(session.findings('ebb.stave').length).toBe(before);
    }
  });

  it.each([
    ['  allow: failure-early "they like it"', '  allow: failure-past-35 "they like it"'],
    ['  allow: stage-unsigned "they are seen"', '  allow: stuck "they are seen"'],
    ['  aim: strength', '  aim: endurance'],
    ['block Keel, 3 weeks, load', 'block Keel, 3 weeks, heavy'],
    ['follows: Ebb, from 2026-12-07, on mon wed', 'follows: Ebb, from 2026-12-07, on mon wed, supervised'],
  ])('is asked again when "%s" changes', (line, other) => {
    const files: Files = new Map(ALL);
    const session = sessionWith(files);
    const before = said(session);
    for (const [file, text] of ALL) files.set(file, text.replace(line, other));
    for (const [file, text] of files) session.setFile(file, text);
    expect(said(session)).toEqual(said(sessionWith(files)));
    expect(said(session)).not.toEqual(before);
  });

  it('is a lot in the workspace of this test', () => {
    const codes = new Set(
      sessionWith(ALL)
        .allFindings()
        .map(({ code }) => code),
    );
    expect(codes.size).toBeGreaterThan(20);
  });
});
