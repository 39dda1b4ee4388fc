import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type MovementLine, type MovementNode, PATTERN_NAMES, parse } from '../../grammar/index.js';

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
  return new Map(sections.flatMap((section) => (section.kind === 'movement' ? [[section.name.key, section]] : [])));
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
    expect([...all.keys()].map((key) => circleFrom(key, next)).filter((circle) => circle !== null)).toEqual([]);
  });

  it('never names a movement of a higher stage as the easier one', () => {
    const order = ['learn', 'load', 'heavy'];
    const stage = (key: string) => order.indexOf(line(all.get(key) as MovementNode, 'stage')?.stage.value ?? '');
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
    expect([...all.keys()].filter((key) => next(key) !== undefined && !all.has(next(key) as string))).toEqual([]);
    expect([...all.keys()].map((key) => circleFrom(key, next)).filter((circle) => circle !== null)).toEqual([]);
  });

  it('says beside every estimate and every lifted share where the number comes from', () => {
    const bare = read('seeds/movements.stave')
      .split('\n')
      .filter((text) => /^\s*(estimate|lifts):/.test(text) && !/ -- .*(common practice, no source|from memory)/.test(text));
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
