import { describe, expect, it } from 'vitest';
import type { Place, ResolvedCell } from '../../server/src/engine/model.js';
import { createSession, type EngineSession } from '../../server/src/engine/session.js';
import { Random } from './random.js';
import { sampleFolder } from './samples.js';

/** A session that was edited answers as one that is opened afresh with the same texts. */

const PIECES = [
  '\r\n',
  '\n',
  '🏋️',
  'é',
  ' ',
  '|',
  ';',
  '-',
  '%',
  '9',
  '0',
  'x',
  'r',
  'kg',
  '"',
  ':',
  ' -- ',
  'stop',
  'end',
  ',',
  '+5%',
  '(',
  '\u00a0',
];
const NAMES = [
  ['movement', 'back squat'],
  ['movement', 'box squat'],
  ['client', 'dunlin'],
  ['client', 'plover'],
  ['kit', 'boathouse studio'],
  ['program', 'ebb to flood'],
] as const;

type Files = Map<string, string>;

function edit(files: Files, all: Files, random: Random): string {
  const names = [...files.keys()];
  const file = random.pick(names);
  const text = files.get(file) as string;
  const at = random.below(text.length + 1);
  const set = (next: string) => {
    files.set(file, next);
    return file;
  };
  switch (random.below(10)) {
    case 0:
    case 1:
    case 2:
      return set(text.slice(0, at) + random.pick(PIECES) + text.slice(at));
    case 3:
    case 4:
      return set(text.slice(0, at) + text.slice(at + 1 + random.below(4)));
    case 5:
      return set(text.slice(0, at) + text.slice(at + random.below(200)));
    case 6: {
      // A line of another file pasted between two lines.
      const lines = [...all.values()].join('\n').split('\n');
      const own = text.split('\n');
      own.splice(random.below(own.length + 1), 0, random.pick(lines));
      return set(own.join('\n'));
    }
    case 7:
      return set(text.includes('\r\n') ? text.replaceAll('\r\n', '\n') : text.replaceAll('\n', '\r\n'));
    case 8: {
      const own = text.split('\n');
      own.splice(random.below(own.length), 1);
      return set(own.join('\n'));
    }
    default:
      // The file as it was at first: an undo.
      return set(all.get(file) as string);
  }
}

const placeText = ({ file, span }: Place) => `${file}:${span.start}-${span.end}`;

function cellText(cell: ResolvedCell): string {
  const { max: _max, ...first } = cell.groups[0] ?? { max: null };
  return JSON.stringify([
    cell.client.key,
    cell.program.key,
    cell.block.key,
    cell.day.key,
    cell.row.key,
    cell.week,
    cell.date,
    cell.deload,
    cell.backShare,
    cell.movement?.key,
    cell.kit?.key,
    cell.texts,
    placeText(cell.place),
    cell.cellIndex,
    first,
    cell.groups.slice(1).map(({ max, ...group }) => ({ ...group, max: max?.entry.date })),
  ]);
}

function snapshot(session: EngineSession) {
  const files = [...session.files()].sort();
  const world = session.world();
  return {
    findings: files.flatMap((file) =>
      session
        .findings(file)
        .map((found) => [
          found.code,
          found.severity,
          found.message,
          placeText(found.place),
          found.related.map((line) => `${placeText(line.place)} ${line.message}`),
          found.fixes.map(
            (fix) =>
              `${fix.title} ${fix.edits.map((each) => `${each.file}:${each.span.start} ${each.newText}`)}`,
          ),
        ]),
    ),
    cells: files.flatMap((file) => session.cellsIn(file).map(cellText)),
    plans: [...world.clients.keys()].map((key) => [
      key,
      session.plan(key)?.sessions.length,
      session.plan(key)?.missed.map((each) => `${each.date} ${each.day.key}`),
    ]),
    names: NAMES.map(([kind, key]) =>
      session
        .occurrences(kind, key)
        .map((use) => `${use.role} ${placeText(use.place)}`)
        .sort(),
    ),
  };
}

function fresh(files: Files): EngineSession {
  const session = createSession({ today: '2026-11-25' });
  for (const [file, text] of files) session.setFile(file, text);
  return session;
}

describe('an edited session', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])('answers as a fresh one, script %i', (seed) => {
    const random = new Random(seed);
    const all = sampleFolder('boathouse');
    const files: Files = new Map(all);
    const session = fresh(files);
    for (let step = 1; step <= 12; step += 1) {
      if (random.below(12) === 0 && files.size > 3) {
        const gone = random.pick([...files.keys()]);
        files.delete(gone);
        session.removeFile(gone);
      } else {
        const file = edit(files, all, random);
        session.setFile(file, files.get(file) as string);
        // An editor asks for this file at once, so that half of what follows is worked out from what was kept.
        if (random.below(2) === 0) session.findings(file);
        if (random.below(2) === 0) session.cellsIn(file);
      }
      if (step % 4 === 0) expect(snapshot(session)).toEqual(snapshot(fresh(files)));
    }
    // Everything taken back: as if nothing had happened.
    for (const [file, text] of all) session.setFile(file, text);
    expect(snapshot(session)).toEqual(snapshot(fresh(all)));
  });
});
