import { describe, expect, it } from 'vitest';
import { historyOf } from '../../server/src/engine/history/history.js';
import { sessionReview, sessionRoster } from '../../server/src/engine/history/kept.js';
import { reviewOf } from '../../server/src/engine/history/review.js';
import { rosterOf } from '../../server/src/engine/history/roster.js';
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

/** What follows from logs, as it is kept beside an edited session. Sessions and cells are compared by what they are. */
function historyText(session: EngineSession) {
  const world = session.world();
  return {
    logs: [...world.logsByClient]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, logs]) => [key, logs.all.map((log) => `${log.date} ${log.day} ${placeText(log.place)}`)]),
    allLogs: [...session.files()]
      .sort()
      .flatMap(world.logsIn)
      .map((log) => `${log.client} ${log.date} ${placeText(log.place)}`),
    unknown: [...session.files()]
      .sort()
      .flatMap(world.unknownIn)
      .map(({ kind, place, candidates }) => [kind, placeText(place), candidates.length]),
    roster: sessionRoster(session, TODAY).map(lineText),
    reviews: [...world.clients.keys()].map((key) => plain(sessionReview(session, key, TODAY))),
    done: [...world.clients.keys()].flatMap((key) => {
      const plan = session.plan(key);
      return plan ? historyOf(plan, world).done.map(plain) : [];
    }),
  };
}

function lineText({ client, at, next, lastLogged, needs }: ReturnType<typeof sessionRoster>[number]) {
  return [
    client.key,
    at && [at.program.key, at.block.key, at.week, at.date],
    next && [next.date, next.day.key, next.cells.map(cellText)],
    lastLogged,
    needs.map(({ kind, text, place }) => `${kind} ${text} ${placeText(place)}`),
  ];
}

/** A value without the parts of the plan and of the tree that it points to, of which the cells and findings tell. */
function plain(value: unknown): unknown {
  const left = new Set([
    'client',
    'program',
    'block',
    'day',
    'row',
    'node',
    'entry',
    'session',
    'cell',
    'cells',
    'movement',
  ]);
  return JSON.parse(
    JSON.stringify(value, (key, part) => {
      if (left.has(key) && typeof part === 'object')
        return part === null ? null : (part.key ?? part.date ?? '…');
      return part instanceof Map || part instanceof Set ? [...part] : part;
    }) ?? 'null',
  );
}

/** What is kept against what is worked out anew from the very same session. */
function expectKeptIsFresh(session: EngineSession) {
  const world = session.world();
  const plans = [...world.clients.keys()].flatMap((key) => session.plan(key) ?? []);
  expect(sessionRoster(session, TODAY).map(lineText)).toEqual(rosterOf(plans, world, TODAY).map(lineText));
  for (const plan of plans) {
    expect(plain(sessionReview(session, plan.client.key, TODAY))).toEqual(
      plain(reviewOf(plan, world, TODAY)),
    );
  }
}

const TODAY = '2026-12-20';

/** Logs of two clients in files of their own, one of a session that both did, with a slip, pains and an unknown day. */
const LOGS: Files = new Map([
  [
    'boathouse/logs-a.stave',
    `log Dunlin, 2026-12-07
  as planned
  pain: knee 4/10

log Dunlin, 2026-12-08
  goblet squat to box: 60kg 6 6 6 r2
  pain: knee 5/10

log Dunlin, Plover, 2026-12-10, Nowhere
  back squat: 40kg 8/0 8/0 r2
  session: rpe 7, 60min
`,
  ],
  [
    'boathouse/logs-b.stave',
    `log Plover, 2026-12-09
  box squat: 30kg 8 8 9 r1
  allow: pain-reported "seen by the physiotherapist"
  pain: hip 6/10

log Nobody, 2026-12-09
  back squat: 30kg 5 5
  pain: hip 6/10

log Dunlin, 2026-12-14
  back squat: 40kg 6 6 8 r3
  note: "technique is good"
`,
  ],
]);

function fresh(files: Files): EngineSession {
  const session = createSession({
    today: '2026-11-25',
    severities: { 'reps-past-35': 'warning', stuck: 'off' },
  });
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

  it.each([21, 22, 23, 24, 25, 26, 27, 28])('with logs, roster and reviews, script %i', (seed) => {
    const random = new Random(seed);
    const all: Files = new Map([...sampleFolder('boathouse'), ...LOGS]);
    const files: Files = new Map(all);
    const session = fresh(files);
    const whole = (each: EngineSession) => ({ ...snapshot(each), ...historyText(each) });
    for (let step = 1; step <= 8; step += 1) {
      // Half of the edits are in the logs, with what was kept asked for in between.
      const logs: Files = new Map([...files].filter(([file]) => LOGS.has(file)));
      const file = edit(random.below(2) === 0 ? logs : files, all, random);
      files.set(file, logs.get(file) ?? (files.get(file) as string));
      session.setFile(file, files.get(file) as string);
      if (random.below(2) === 0) session.findings(file);
      if (random.below(2) === 0) sessionRoster(session, TODAY);
      if (random.below(3) === 0) sessionReview(session, 'dunlin', TODAY);
      if (step % 4 !== 0) continue;
      expectKeptIsFresh(session);
      expect(whole(session)).toEqual(whole(fresh(files)));
    }
    for (const [file, text] of all) session.setFile(file, text);
    expect(whole(session)).toEqual(whole(fresh(all)));
  });

  it.each([31, 32, 33, 34, 35, 36])('and its fork go their own ways, script %i', (seed) => {
    const random = new Random(seed);
    const all: Files = new Map([...sampleFolder('boathouse'), ...LOGS]);
    const files: Files = new Map(all);
    const session = fresh(files);
    if (random.below(2) === 0) snapshot(session);
    const apart: Files = new Map(files);
    const fork = session.fork();
    for (let step = 1; step <= 6; step += 1) {
      const inFork = random.below(2) === 0;
      const [own, texts] = inFork ? [fork, apart] : [session, files];
      const file = edit(texts, all, random);
      own.setFile(file, texts.get(file) as string);
      if (random.below(2) === 0) own.findings(file);
      if (random.below(2) === 0) own.cellsIn(file);
      if (step % 3 !== 0) continue;
      expect(snapshot(session)).toEqual(snapshot(fresh(files)));
      expect(snapshot(fork)).toEqual(snapshot(fresh(apart)));
    }
    for (const [file, text] of all) fork.setFile(file, text);
    expect(snapshot(fork)).toEqual(snapshot(fresh(all)));
    expect(snapshot(session)).toEqual(snapshot(fresh(files)));
  });

  it('reads the logs of the test', () => {
    const session = fresh(new Map([...sampleFolder('boathouse'), ...LOGS]));
    const codes = [...LOGS.keys()].flatMap((file) => session.findings(file).map(({ code }) => code));
    expect(new Set(codes)).toEqual(
      new Set(['log-far-off', 'pain-reported', 'pain-next-morning', 'one-side-only', 'unknown-name']),
    );
    expect(sessionRoster(session, TODAY).flatMap(({ needs }) => needs).length).toBeGreaterThan(0);
  });
});
