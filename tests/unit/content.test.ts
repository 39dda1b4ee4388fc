import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import {
  type MovementLine,
  type MovementNode,
  PATTERN_NAMES,
  parse,
  type StageName,
} from '../../grammar/index.js';
import { createSession } from '../../server/src/engine/session.js';
import { formatText } from '../../server/src/engine/views/format.js';

const root = fileURLToPath(new URL('../..', import.meta.url));

function staveFiles(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.stave'))
    .map((name) => join(folder, name))
    .sort();
}

const read = (file: string) => readFileSync(join(root, file), 'utf8');

/** `file:line: message`, so that a failing test says where to look. */
function problemsOf(file: string): string[] {
  const text = read(file);
  return parse(text).problems.map(({ span, code, message }) => {
    const line = text.slice(0, span.start).split('\n').length;
    return `${relative(root, join(root, file))}:${line}: ${code} ${message}`;
  });
}

function movements(): ReadonlyMap<string, MovementNode> {
  const { sections } = parse(read('seeds/movements.stave')).value;
  return new Map(
    sections.flatMap((section) => (section.kind === 'movement' ? [[section.name.key, section]] : [])),
  );
}

function line<Kind extends MovementLine['kind']>(movement: MovementNode, kind: Kind) {
  return movement.lines.find((each): each is Extract<MovementLine, { kind: Kind }> => each.kind === kind);
}

/** The names met by following `next` from `start`, up to the first that comes back; null when none does. */
function circleFrom(start: string, next: (key: string) => string | undefined): string[] | null {
  const met = [start];
  for (let key = next(start); key !== undefined; key = next(key)) {
    if (met.includes(key)) return [...met, key];
    met.push(key);
  }
  return null;
}

describe('seeds and samples read without a problem', () => {
  const files = [...staveFiles('seeds'), ...staveFiles('samples')];

  it('finds them', () => {
    expect(files).toContain('seeds/movements.stave');
    expect(files).toContain('samples/winter/winter.stave');
    expect(files.filter((file) => file.startsWith('samples/boathouse/')).length).toBeGreaterThanOrEqual(10);
  });

  it.each(files)('%s', (file) => {
    expect(problemsOf(file)).toEqual([]);
  });

  // The worked example keeps the layout that it has on paper.
  it.each(files.filter((file) => !file.startsWith('samples/winter/')))(
    '%s is laid out as the formatter does',
    (file) => {
      expect(formatText(read(file))).toEqual({ edits: [], refusedBecause: null });
    },
  );
});

describe('the catalogue of movements', () => {
  const all = movements();
  const nextBy = (kind: 'easier' | 'harder') => (key: string) => {
    const movement = all.get(key);
    return movement ? line(movement, kind)?.movement.key : undefined;
  };

  it('has at least 120 movements, each named once', () => {
    const written = read('seeds/movements.stave').match(/^movement .+$/gm) ?? [];
    expect(all.size).toBeGreaterThanOrEqual(120);
    expect(all.size).toBe(written.length);
  });

  it('covers every pattern', () => {
    const covered = new Set([...all.values()].map((movement) => line(movement, 'pattern')?.pattern.value));
    expect(PATTERN_NAMES.filter((pattern) => !covered.has(pattern))).toEqual([]);
  });

  it('gives each movement a pattern, equipment, a stage and a cue of one sentence', () => {
    const poor = [...all.values()].filter((movement) => {
      const cue = line(movement, 'cue')?.text.text ?? '';
      const complete = (['pattern', 'with', 'stage'] as const).every((kind) => line(movement, kind));
      return !complete || !/^[A-Z].{15,}\.$/.test(cue) || /[.!?] /.test(cue);
    });
    expect(poor.map((movement) => movement.name.text)).toEqual([]);
  });

  it('writes no cue twice', () => {
    const cues = [...all.values()].map((movement) => line(movement, 'cue')?.text.text);
    expect(new Set(cues).size).toBe(cues.length);
  });

  it.each(['easier', 'harder'] as const)('names only its own movements as %s, in no circle', (kind) => {
    const next = nextBy(kind);
    const lost = [...all.keys()].filter((key) => next(key) !== undefined && !all.has(next(key) as string));
    expect(lost).toEqual([]);
    expect([...all.keys()].map((key) => circleFrom(key, next)).filter((circle) => circle !== null)).toEqual(
      [],
    );
  });

  it('never names a movement of a higher stage as the easier one', () => {
    const order = ['learn', 'load', 'heavy'];
    const stage = (key: string) =>
      order.indexOf(line(all.get(key) as MovementNode, 'stage')?.stage.value ?? '');
    const easier = nextBy('easier');
    const wrong = [...all.keys()].filter((key) => {
      const other = easier(key);
      return other !== undefined && stage(other) > stage(key);
    });
    expect(wrong).toEqual([]);
  });

  it('estimates only from its own movements, in no circle', () => {
    const next = (key: string) => {
      const movement = all.get(key);
      return movement ? line(movement, 'estimate')?.of.key : undefined;
    };
    expect([...all.keys()].filter((key) => next(key) !== undefined && !all.has(next(key) as string))).toEqual(
      [],
    );
    expect([...all.keys()].map((key) => circleFrom(key, next)).filter((circle) => circle !== null)).toEqual(
      [],
    );
  });

  it('says beside every estimate and every lifted share where the number comes from', () => {
    const bare = read('seeds/movements.stave')
      .split('\n')
      .filter(
        (text) =>
          /^\s*(estimate|lifts):/.test(text) && !/ -- .*(common practice, no source|from memory)/.test(text),
      );
    expect(bare).toEqual([]);
  });

  // Ebben et al. 2011, J Strength Cond Res (from memory): share of body mass on the hands.
  it.each([
    ['push-up', 64],
    ['knee push-up', 49],
    ['bench push-up', 55],
    ['feet-raised push-up', 70],
  ])('takes the lifted share of the %s from its source', (name, percent) => {
    expect(line(all.get(name) as MovementNode, 'lifts')?.percent.value).toBe(percent);
  });
});

/** Findings of a folder of samples (or of given texts), as `file:line code`, in order. */
function findingsOf(texts: Readonly<Record<string, string>>): string[] {
  const session = createSession({ today: '2026-11-25', severities: {} });
  for (const [file, text] of Object.entries(texts)) session.setFile(file, text);
  return session
    .allFindings()
    .map(({ code, place }) => {
      const before = (texts[place.file] ?? '').slice(0, place.span.start);
      return `${place.file}: ${textOfLine(texts[place.file] ?? '', before.split('\n').length)}: ${code}`;
    })
    .sort();
}

/** The words of a line up to its first `|`, so that a pin says what it is about and survives lines above it. */
function textOfLine(text: string, line: number): string {
  return (text.split('\n')[line - 1] ?? '').split('|')[0]?.replace(/\s+/g, ' ').trim() ?? '';
}

function folder(name: string): Record<string, string> {
  return Object.fromEntries(staveFiles(name).map((file) => [relative(name, file), read(file)]));
}

describe('what is found in the samples is what is meant', () => {
  // The same list, for people, stands in samples/boathouse/FINDINGS.md.
  it('in the boathouse', () => {
    expect(findingsOf(folder('samples/boathouse'))).toEqual(
      [
        'programs/ebb-to-flood.stave: overhead press: 3x8 r3 warm rest 2min: stuck',
        'programs/ebb-to-flood.stave: overhead press: 3x6 r2 warm rest 3min: heavy-early',
        'programs/storm-cycle.stave: bench press: 4x5 r2 warm rest 3min: max-stale',
        'clients/dunlin.stave: away: 2026-09-22 to 2026-09-26, keep dates: session-missed',
        'clients/wren.stave: away: 2026-12-25 to 2026-12-26: session-missed',
      ].sort(),
    );
  });

  it('in the boathouse without the allow line: the sprints before their sign-off', () => {
    const texts = folder('samples/boathouse');
    const plover = texts['clients/plover.stave'] as string;
    texts['clients/plover.stave'] = plover.replace(/^ *allow: .*\n/m, '');
    const more = findingsOf(texts).filter((found) => found.includes('heavy-early'));
    expect(more).toEqual([
      'programs/ebb-to-flood.stave: bike sprint: 3x15s off 120s: heavy-early',
      'programs/ebb-to-flood.stave: overhead press: 3x6 r2 warm rest 3min: heavy-early',
    ]);
  });

  it('in the worked example', () => {
    expect(findingsOf(folder('samples/winter'))).toEqual(['winter.stave: overhead press: 3x8 r3: stuck']);
  });
});

describe('a starter program, for somebody who is signed off for it and has fresh maxes', () => {
  const loads: readonly (readonly [string, string])[] = [
    ['goblet squat', '16kg x10 r3'],
    ['dumbbell bench press', '12kg x8 r3'],
    ['leg curl', '30kg x10 r3'],
    ['seated row', '35kg x10 r3'],
    ['dumbbell romanian deadlift', '24kg x10 r3'],
    ['dumbbell overhead press', '8kg x8 r3'],
    ['dumbbell split squat', '10kg x8 r3'],
    ['lat pulldown', '40kg x8 r2'],
    ['leg press', '80kg x8 r3'],
    ['one-arm dumbbell row', '16kg x8 r2'],
    ['dumbbell deadlift', '20kg x8 r3'],
    ['dumbbell step-up', '8kg x8 r3'],
    ['back squat', '60kg x5 r2'],
    ['bench press', '40kg x5 r2'],
    ['raised deadlift', '70kg x5 r2'],
    ['deadlift', '80kg x5 r2'],
    ['overhead press', '27.5kg x5 r2'],
  ];

  const programs: readonly (readonly [string, string, StageName])[] = [
    ['First steps', 'Home corner', 'learn'],
    ['Finding load', 'Community studio', 'load'],
    ['First barbell', 'Community studio', 'load'],
    ['Heavy cycle', 'Barbell room', 'heavy'],
  ];

  it.each(programs)(
    '%s: each row finds its load in the %s and stays within the stage',
    (program, kit, stage) => {
      const client = [
        'client Sanderling',
        'mass: 66kg, 2026-06-01',
        'screened: 2026-05-30',
        `trains at: ${kit}`,
        `ready: ${stage} all 2026-06-01`,
        // Fresh enough for both blocks: the second set is done between them.
        ...loads.flatMap(([name, set]) => [
          `max: ${name}, ${set}, 2026-06-01`,
          `max: ${name}, ${set}, 2026-07-10`,
        ]),
        `follows: ${program}, from 2026-06-08, on mon wed${stage === 'heavy' ? ' fri' : ''}`,
      ].join('\n');
      expect(findingsOf({ ...folder('seeds'), 'client.stave': client })).toEqual([]);
    },
  );

  it('finds what is wrong when the sign-off is missing', () => {
    const client =
      'client Sanderling\nmass: 66kg, 2026-06-01\ntrains at: Community studio\nfollows: First barbell, from 2026-06-08, on mon wed';
    const found = findingsOf({ ...folder('seeds'), 'client.stave': client });
    expect(
      found.some((finding) => finding.endsWith('stage-unsigned') || finding.endsWith('max-unknown')),
    ).toBe(true);
  });
});
