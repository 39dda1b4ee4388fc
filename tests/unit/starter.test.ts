import { describe, expect, it } from 'vitest';
import type { PatternName } from '../../grammar/index.js';
import type { Weekday } from '../../server/src/engine/dates.js';
import type { EngineSession } from '../../server/src/engine/session.js';
import { createSession } from '../../server/src/engine/session.js';
import { readAlias, readBorn, readSet } from '../../server/src/engine/starter/answers.js';
import { type ClientAnswers, clientFiles } from '../../server/src/engine/starter/client.js';
import { firstPlaces, MADE_FOR_HER, starterChange } from '../../server/src/engine/starter/follow.js';
import { firstDay } from '../../server/src/engine/starter/program.js';
import { seedKits, seedPrograms } from '../../server/src/engine/starter/seeds.js';
import { applyEdits, formatText } from '../../server/src/engine/views/format.js';

const TODAY = '2026-11-27';
const ON: readonly Weekday[] = ['mon', 'thu'];
const DAYS = { from: firstDay(TODAY, ON), on: ON };

const done = (text: string) => {
  const { value } = readSet(text, TODAY);
  if (value === null) throw new Error(text);
  return value;
};

/** A folder with one client and the program made for her. */
function folder(
  answers: Partial<Omit<ClientAnswers, 'sets'>> & { sets?: readonly string[] },
  program = MADE_FOR_HER,
) {
  const session = createSession({ today: TODAY });
  const whole = { alias: 'Heron', born: '1968', kits: ['Home corner'], signedOff: [], ...answers };
  for (const { path, text } of clientFiles({ ...whole, sets: (answers.sets ?? []).map(done) }, TODAY))
    session.setFile(path, text);
  const change = starterChange(session, 'heron', program, DAYS);
  if (!change) throw new Error('no program');
  session.setFile(
    change.at.file,
    applyEdits(session.text(change.at.file) ?? '', [{ span: change.at.span, newText: change.line }]),
  );
  if (change.file) session.setFile(change.file.path, change.file.text);
  return { session, change };
}

const codes = (session: EngineSession) => session.allFindings().map(({ code }) => code);

const kits = [...seedKits().map(({ name }) => [name]), ['Barbell room', 'Home corner']];
const sets: readonly (readonly [readonly string[], readonly PatternName[]])[] = [
  [[], []],
  [['back squat 40kg 8 r2'], []],
  [['back squat 40kg 8 r2'], ['squat']],
  [
    ['back squat 40kg 8 r2', 'bench press 25kg 8 r3', 'deadlift 50kg 5 r3'],
    ['squat', 'push', 'hinge'],
  ],
  [['goblet squat 8kg 10 r3', 'dumbbell overhead press 6kg 8 r2', 'one-arm dumbbell row 8kg 10 r3'], []],
  [['leg press 60kg 10 r3', 'seated row 30kg 10 r3', 'push-up 8 r2'], []],
  [['kettlebell deadlift 16kg 10 r4', 'chest press 20kg 12 r2', 'lat pulldown 25kg 10 r1'], []],
];
const cases = kits.flatMap((have) => sets.map(([lifts, ready]) => [have, lifts, ready] as const));

describe('a new client with the program made for her', () => {
  it.each(cases)(
    'in %j with %j, signed off for %j: one warning, whose repair leaves none',
    (have, lifts, ready) => {
      const { session } = folder({ kits: have, sets: lifts, signedOff: ready });
      expect(codes(session)).toEqual(['failure-early']);
      const [finding] = session.allFindings();
      const [fix] = finding?.fixes ?? [];
      for (const { file, ...edit } of fix?.edits ?? [])
        session.setFile(file, applyEdits(session.text(file) ?? '', [edit]));
      expect(codes(session)).toEqual([]);
      // Six weeks of two days, and in all of them something to do.
      const sessions = session.plan('heron')?.sessions ?? [];
      expect(sessions.map(({ cells }) => cells.length > 4)).toEqual(Array(12).fill(true));
      expect(sessions[0]?.date).toBe('2026-11-30');
      for (const file of session.files()) expect(formatText(session.text(file) ?? '').edits).toEqual([]);
    },
  );

  it('gives the loads of her sets, at least four in reserve, from the first week on', () => {
    const { session } = folder({
      kits: ['Community studio'],
      sets: ['back squat 40kg 8 r2', 'leg press 60kg 10 r3'],
      signedOff: ['squat'],
    });
    const cells = session.plan('heron')?.sessions[0]?.cells ?? [];
    const squat = cells.find(({ movement }) => movement?.key === 'back squat')?.groups[0];
    // Brzycki: 40 × 36 / 27 = 53.33 kg; ten reps with five left: × 22 / 36 = 32.6 kg, so 32.5 kg with these plates.
    expect([squat?.reps, squat?.writtenReserve, squat?.loadKg]).toEqual([10, 5, 32.5]);
    const least = (session.plan('heron')?.sessions ?? []).flatMap(({ cells: all }) =>
      all.flatMap(({ groups }) => groups.flatMap(({ reserve }) => (reserve === null ? [] : [reserve]))),
    );
    expect(Math.min(...least)).toBeGreaterThan(3.7);
    const { load, finding } = firstPlaces(session, 'heron', TODAY);
    const textAt = (place: typeof load) =>
      place && session.text(place.file)?.slice(place.span.start, place.span.end);
    expect(textAt(load)).toBe('2x10 r5 warm rest 90s');
    expect(textAt(finding)).toBe('2xmax r0 height 95cm');
  });

  it('says which of her lifts it leaves out, in the text too', () => {
    const { session, change } = folder({ sets: ['back squat 40kg 8 r2', 'goblet squat 8kg 10 r3'] });
    expect(change.waiting).toEqual([{ movement: 'back squat', why: 'the kit has nothing for it' }]);
    expect(change.file?.text).toContain('-- Not in here yet: back squat (the kit has nothing for it).');
    expect(session.plan('heron')?.sessions[0]?.cells.map(({ movement }) => movement?.key)).toContain(
      'goblet squat',
    );
  });

  it.each(seedPrograms().map(({ name }) => name))('can follow the shipped program %s instead', (name) => {
    const { session, change } = folder({ kits: ['Community studio'] }, name);
    expect(change.name).toBe(name);
    expect(session.plan('heron')?.sessions.length).toBeGreaterThan(0);
    // Written once: the next client follows the same one.
    expect(starterChange(session, 'heron', name, DAYS)?.file).toBeNull();
  });

  it('takes another name and another file for the next client', () => {
    const { session } = folder({});
    session.setFile('clients/wren.stave', 'client Wren\n  trains at: Home corner\n');
    const next = starterChange(session, 'wren', MADE_FOR_HER, DAYS, new Set(session.files()));
    expect(next?.name).toBe('First weeks of Wren');
    expect(next?.file?.path).toMatch(/^programs\/first-weeks-of-wren.*\.stave$/);
  });

  it('never writes over a file, nor writes a kit twice', () => {
    const answers = {
      alias: 'Heron',
      born: null,
      kits: ['Home corner', 'Barbell room'],
      sets: [],
      signedOff: [],
    };
    const taken = new Set(['kits.stave', 'clients/heron.stave']);
    const files = clientFiles(answers, TODAY, new Set(['home corner']), taken);
    expect(files.map(({ path }) => path)).toEqual(['clients/heron-2.stave', 'kits-2.stave']);
    expect(files[1]?.text).not.toContain('kit Home corner');
    expect(files[1]?.text).toContain('kit Barbell room');
    expect(files[0]?.text).not.toContain('born');
    expect(clientFiles({ ...answers, kits: ['Home corner'] }, TODAY, new Set(['home corner']))).toHaveLength(
      1,
    );
  });

  it('begins on the first of her days in the next week', () => {
    // 27 November 2026 is a Friday.
    expect(firstDay('2026-11-27', ['mon', 'thu'])).toBe('2026-11-30');
    expect(firstDay('2026-11-30', ['sat', 'tue'])).toBe('2026-12-08');
    expect(firstDay('2026-11-29', [])).toBe('2026-11-30');
  });
});

describe('what a coach answers', () => {
  it.each([
    ['back squat 40kg 8 r2', 'back squat, 40kg x8 r2, 2026-11-27'],
    ['Back Squat, 40 kg × 8, r2', 'back squat, 40kg x8 r2, 2026-11-27'],
    ['back squats 95lb 8r2', 'back squat, 95lb x8 r2, 2026-11-27'],
    ['back squat 42.5kg 3x8 rpe8 2026-11-20', 'back squat, 42.5kg x8 rpe 8, 2026-11-20'],
    ['push-up 12 r3', 'push-up, bw x12 r3, 2026-11-27'],
    ['chin-up bw-20kg 5', 'chin-up, bw-20kg x5, 2026-11-27'],
  ])('%s reads', (text, line) => {
    expect(done(text).line).toBe(line);
  });

  it.each([
    ['', 'Write a set like this: back squat 40kg 8 r2'],
    ['back squat', 'How heavy? For example: back squat 40kg 8 r2'],
    ['back squat 40kg', 'How many reps? For example: back squat 40kg 8 r2'],
    ['back squat 40 8 r2', 'Write the unit beside the load: 40kg'],
    ['back squat, 42,5kg x8', 'Write the load with a point: 42.5kg'],
    ['bak squat 40kg 8', 'There is no movement "bak squat". Did you mean "back squat"?'],
    [
      'back squat 40kg 30',
      '30 reps tell too little of her strength. Take a set of 1 to 20, best of 5 to 10.',
    ],
    [
      'back squat 40kg 8 2027-01-01',
      '2027-01-01 is no day until today. Write the day of the set like 2026-11-27.',
    ],
    ['band row 10 r3', 'A band has no kilograms to work from. Take a set of another movement.'],
  ])('"%s" says what is missing', (text, problem) => {
    expect(readSet(text, TODAY).problem).toBe(problem);
  });

  it('takes aliases that the notation can hold and nobody else has', () => {
    const taken = new Set(['heron']);
    expect(readAlias('  Reed   Warbler ', taken).value).toBe('Reed Warbler');
    expect(readAlias('Ärztin 7', taken).value).toBe('Ärztin 7');
    for (const text of ['', '  ', 'A, B', 'a: b', 'x -- y', '"Wren"', 'heron', 'HERON', '--'])
      expect([text, readAlias(text, taken).value]).toEqual([text, null]);
  });

  it('takes a year that she can have been born in, or none', () => {
    expect(readBorn('1968', TODAY).value).toBe('1968');
    expect(readBorn('1968-03', TODAY).value).toBe('1968-03');
    expect(readBorn(' ', TODAY)).toEqual({ value: null, problem: null });
    for (const text of ['68', '1868', '2025', '1968-13', 'March'])
      expect(readBorn(text, TODAY).problem).not.toBeNull();
  });
});
