import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../server/src/engine/model.js';
import { createSession, type EngineSession } from '../../server/src/engine/session.js';
import { applyFix, check, syntaxProblems } from './check.js';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

function read(path: string): string {
  return readFileSync(`${ROOT}${path}`, 'utf8');
}

function folder(path: string): EngineSession {
  const session = createSession();
  for (const name of readdirSync(`${ROOT}${path}`, { recursive: true })) {
    if (String(name).endsWith('.stave')) session.setFile(String(name), read(`${path}/${name}`));
  }
  return session;
}

describe('a year of a careful coach', () => {
  const text = read('tests/fixtures/rules/careful-year.stave');

  it('is read without a slip', () => {
    expect(syntaxProblems(text)).toEqual([]);
  });

  it('has nothing to be told', () => {
    expect(check(text).map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
  });

  it('is told what its coach would want to know when something slips', () => {
    const of = (from: string, to: string) => {
      expect(text).toContain(from);
      return check(text.replace(from, to)).map(({ code }) => code);
    };
    expect(of('3x8 r3 warm rest 2min | | 4x |', '3x8 r3 warm rest 2min | +15% | 4x |')).toContain(
      'jump-load',
    );
    expect(of('heavy squat 2026-06-01, ', '')).toContain('heavy-early');
    expect(of(', back at 90%', '')).toContain('back-too-fast');
    expect(of('6 weeks, load, deload 6', '6 weeks, load')).toContain('deload-due');
    expect(of('  "Set the pins just below your lowest position before the first set."', '')).toContain(
      'spotter-note',
    );
    expect(of('farmer carry: 3x20m 16kg', 'farmer carry: 3x20m 30kg')).toContain('beyond-kit');
    expect(of('test x8 | x8 | |', '5% | x8 | |')).toContain('far-off');
  });
});

describe('fixes of the sample', () => {
  const session = folder('samples/boathouse');
  const all = session.allFindings();
  const fixes = all.flatMap((finding) => finding.fixes.map((fix) => ({ finding, fix })));

  it('are there', () => {
    expect(fixes.length).toBeGreaterThan(0);
  });

  for (const { finding, fix } of fixes) {
    it(`${finding.code} at ${finding.place.file}: "${fix.title}" adds no slip and no error`, () => {
      const after = folder('samples/boathouse');
      for (const file of new Set(fix.edits.map((edit) => edit.file))) {
        const own = { ...fix, edits: fix.edits.filter((edit) => edit.file === file) };
        after.setFile(file, applyFix(session.text(file) ?? '', own));
        expect(after.tree(file)?.problems).toEqual([]);
      }
      const errors = (list: readonly Finding[]) => list.filter(({ severity }) => severity === 'error').length;
      expect(errors(after.allFindings())).toBe(errors(all));
    });
  }
});
