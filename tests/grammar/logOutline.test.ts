import { describe, expect, it } from 'vitest';
import { logOutline, parse } from '../../grammar/index.js';
import { Random } from '../property/random.js';
import { SAMPLES } from './samples.js';

/** What a file of logs says at a glance is what it says when it is read. */

const PLAIN = `-- What Heron did in 2026.
log Heron, 2026-12-07, Lower
  back squat: 45kg 6 6 5 r1 -- rested: 3 min
  band row: as planned
  session: rpe 7, 55min

log Wren, 2026-12-08
  as planned
  pain: knee 3/10
  note: "slow: tired"
  allow: pain-reported "old knee"
`;

/** Pieces that could open something, close something, or be mistaken for either. */
const PIECES = [
  ...[
    'client Heron\n',
    '  client Heron\n',
    'client: Heron\n',
    '  client: Heron\n',
    '"client Heron\n',
    '|log Heron',
  ],
  ...[
    'log Heron, 2026-12-07\n',
    '  log Heron, 2026-12-07\n',
    'log Heron, Wren, 2026-12-07\n',
    'log "Heron", 2026-12-07',
  ],
  ...[
    'l:og Heron, 2026-12-07\n',
    'Log Heron, 2026-12-07\n',
    'log Heron, 2026-02-30\n',
    'log\tHeron, 2026-12-07\n',
  ],
  ...[
    '  as planned\n',
    'as planned\n',
    '  As  planned\n',
    'end\n',
    '  end\n',
    '  day Lower\n',
    'day Lower\n',
  ],
  ...[
    '  -- note: x\n',
    '--\n',
    '--x\n',
    ' -- ',
    '--',
    '"',
    '|',
    ':',
    ',',
    ' ',
    '\t',
    '\n',
    '\r\n',
    '\r',
    '\u00a0',
    '\ufeff',
  ],
  ...[
    '  back squat -- a: b\n',
    '  "kit: Home"\n',
    '  kit "a: b"\n',
    '  | 3x6\n',
    '  | a: 3x6\n',
    'program Winter\n',
  ],
  ...[
    '  back squat: 45kg 6 6\n',
    '  block Keel, 4 weeks\n',
    '  group All: Heron\n',
    '  all: Heron\n',
    '  allow: x\n',
  ],
];

function headsRead(text: string) {
  return parse(text).value.sections.flatMap((section): unknown[] =>
    section.kind === 'log'
      ? section.clients.map(({ key }) => ({ client: key, date: section.date.iso }))
      : [section.kind],
  );
}

function changed(text: string, random: Random): string {
  const at = random.below(text.length + 1);
  const gone = random.below(3) === 0 ? random.below(12) : 0;
  const piece = random.below(4) === 0 ? '' : (PIECES[random.below(PIECES.length)] as string);
  const start = random.below(2) === 0 ? at : text.lastIndexOf('\n', at) + 1;
  return text.slice(0, start) + piece + text.slice(start + gone);
}

describe('the outline of a file of logs', () => {
  it('has each log of a plain file', () => {
    expect(logOutline(PLAIN)).toEqual([
      { client: 'heron', date: '2026-12-07' },
      { client: 'wren', date: '2026-12-08' },
    ]);
  });

  it('is not told of a file with anything else in it', () => {
    for (const text of ['', 'client Heron\n', `${PLAIN}\nclient Heron\n`, `kit Studio\n\n${PLAIN}`])
      expect(logOutline(text)).toBeNull();
  });

  it('says what the file says, however it is damaged', () => {
    const random = new Random(20_261_127);
    let told = 0;
    for (let run = 0; run < 20_000; run += 1) {
      let text = random.below(2) === 0 ? PLAIN : PLAIN.replaceAll('\n', '\r\n');
      for (let change = random.below(4); change >= 0; change -= 1) text = changed(text, random);
      const heads = logOutline(text);
      if (heads === null) continue;
      told += 1;
      expect(heads, JSON.stringify(text)).toEqual(headsRead(text));
    }
    // Were it never told, nothing would be held to anything.
    expect(told).toBeGreaterThan(2_000);
  });

  it('says what the samples say, where it is told', () => {
    for (const { name, text } of SAMPLES) {
      const heads = logOutline(text);
      if (heads !== null) expect(heads, name).toEqual(headsRead(text));
    }
  });
});
