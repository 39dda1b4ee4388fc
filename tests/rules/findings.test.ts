import { describe, expect, it } from 'vitest';
import { RULES } from '../../server/src/engine/rules/index.js';
import { applyFix, check, found, KIT, sessionOf, syntaxProblems } from './check.js';

/** Heavy work that Heron is not signed off for, with room for an `allow` line at each level. */
function withAllow(level: string, code = 'heavy-early'): string {
  const allow = (at: string) => (at === level ? `allow: ${code} "known since years"` : '');
  return `${KIT}
client Heron
  trains at: Boathouse
  ${allow('client')}
  max: back squat, 47.5kg x5 r2, 2026-11-23

group Morning
  members: Heron
  follows: Winter, from 2026-12-07, on mon
  ${allow('group')}

program Winter
  ${allow('program')}

block Keel, 2 weeks
  ${allow('block')}
day Lower
  ${allow('day')}
  circuit Deck, 3 rounds
    ${allow('circuit')}
    back squat: x6 r2
    ${allow('row')}
  end
`;
}

describe('allow', () => {
  it('is found without any', () => {
    expect(syntaxProblems(withAllow('nowhere'))).toEqual([]);
    expect(found(withAllow('nowhere'), 'heavy-early')).toHaveLength(1);
  });

  for (const level of ['client', 'group', 'program', 'block', 'day', 'circuit', 'row']) {
    it(`silences at the ${level}, and counts as used`, () => {
      const text = withAllow(level);
      expect(syntaxProblems(text)).toEqual([]);
      expect(found(text, 'heavy-early')).toEqual([]);
      expect(found(text, 'unused-allow')).toEqual([]);
    });

    it(`is found at the ${level} when it silences nothing`, () => {
      const text = withAllow(level, 'jump-load');
      expect(found(text, 'heavy-early')).toHaveLength(1);
      expect(found(text, 'unused-allow')).toHaveLength(1);
    });
  }

  it('proposes the code that was meant', () => {
    const text = withAllow('client', 'heavy-erly');
    const [unused] = found(text, 'unused-allow');
    expect(unused?.message).toContain('Did you mean "heavy-early"?');
    const fix = unused?.fixes[0];
    expect(fix && found(applyFix(text, fix), 'heavy-early')).toEqual([]);
  });
});

describe('severities', () => {
  const text = withAllow('nowhere');
  const severityOf = (severities: Parameters<typeof sessionOf>[1]) =>
    sessionOf(text, severities)
      .allFindings()
      .filter(({ code }) => code === 'heavy-early')
      .map(({ severity }) => severity);

  it('are the rule’s own unless set, and off drops the finding', () => {
    expect(severityOf({})).toEqual(['warning']);
    expect(severityOf({ 'heavy-early': 'error' })).toEqual(['error']);
    expect(severityOf({ 'heavy-early': 'hint' })).toEqual(['hint']);
    expect(severityOf({ 'heavy-early': 'off' })).toEqual([]);
  });
});

describe('fixes', () => {
  for (const rule of RULES) {
    for (const { fixes } of found(rule.example, rule.code)) {
      for (const fix of fixes) {
        it(`${rule.code}: "${fix.title}" adds no slip`, () => {
          const after = applyFix(rule.example, fix);
          expect(after).not.toBe(rule.example);
          expect(syntaxProblems(after)).toEqual([]);
        });

        // A line that is only there to be filled in changes nothing yet.
        if (fix.edits.some((edit) => edit.newText.trim().startsWith('-- '))) continue;
        it(`${rule.code}: "${fix.title}" takes the finding away`, () => {
          const before = found(rule.example, rule.code).length;
          expect(found(applyFix(rule.example, fix), rule.code).length).toBeLessThan(before);
        });
      }
    }
  }
});

describe('one list', () => {
  it('is in order of place, and no message repeats itself', () => {
    for (const rule of RULES) {
      const all = check(rule.example, [rule]);
      const starts = all.map(({ place }) => place.span.start);
      expect(starts).toEqual([...starts].sort((a, b) => a - b));
      expect(
        new Set(all.map(({ code, message, place }) => `${code}${message}${place.span.start}`)).size,
      ).toBe(all.length);
    }
  });
});
