import { describe, expect, it } from 'vitest';
import type { Finding } from '../../server/src/engine/model.js';
import { createSession } from '../../server/src/engine/session.js';
import { samples } from './samples.js';

/** A file is broken off wherever the coach stops typing: nothing throws, and every place lies inside its text. */

function outOfBounds(findings: readonly Finding[], texts: ReadonlyMap<string, string>): string[] {
  const places = findings.flatMap((found) => [
    found.place,
    ...found.related.map((line) => line.place),
    ...found.fixes.flatMap((fix) => fix.edits),
  ]);
  return places
    .filter(
      ({ file, span }) =>
        !(span.start >= 0 && span.start <= span.end && span.end <= (texts.get(file)?.length ?? -1)),
    )
    .map(({ file, span }) => `${file}:${span.start}-${span.end}`);
}

describe('a sample that is broken off', () => {
  it.each([...samples().keys()])(
    '%s',
    (file) => {
      const folder = file.slice(0, file.indexOf('/'));
      const texts = new Map([...samples()].filter(([name]) => name.startsWith(`${folder}/`)));
      const session = createSession({ today: '2026-11-25' });
      for (const [name, text] of texts) session.setFile(name, text);
      const whole = texts.get(file) as string;
      // Every seventh offset is read; findings of everything are asked for at every tenth of those.
      for (let at = 0, count = 0; at < whole.length; at += 7, count += 1) {
        const text = whole.slice(0, at);
        session.setFile(file, text);
        const problems = session.tree(file)?.problems ?? [];
        for (const { span } of problems)
          expect(span.start >= 0 && span.start <= span.end && span.end <= text.length).toBe(true);
        if (count % 10 !== 0) continue;
        texts.set(file, text);
        expect(outOfBounds(session.allFindings(), texts)).toEqual([]);
        for (const cell of session.cellsIn(file)) {
          expect(cell.place.span.end).toBeLessThanOrEqual(texts.get(cell.place.file)?.length ?? -1);
        }
      }
    },
    120_000,
  );
});
