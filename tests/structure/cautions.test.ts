/** Cautions stand where somebody could be hurt: each rule on readiness, the top of every plan, the README. */

import { describe, expect, it } from 'vitest';
import { CAUTIONS } from '../../server/src/engine/print/cautions.js';
import { ruleMarkdown, rulePlainText } from '../../server/src/engine/ruleReference.js';
import { RULES } from '../../server/src/engine/rules/index.js';
import { read } from './repository.js';

/** Rules on who may do what: sign-offs, screening, conditions, pain, and coming back. */
const READINESS = [
  'avoided',
  'back-too-fast',
  'bone-caution',
  'flexion-caution',
  'heavy-early',
  'heavy-soon',
  'pain-next-morning',
  'pain-reported',
  'pressure-caution',
  'screening-missing',
  'screening-old',
  'sign-off-again',
  'spotter-note',
  'sprint-dose',
  'stage-unsigned',
];

describe('a rule on readiness', () => {
  it.each(READINESS)(
    '%s has a caution that says who decides or when to stop, on its page and in the terminal',
    (code) => {
      const rule = RULES.find((known) => known.code === code);
      expect(rule, code).toBeDefined();
      if (!rule) return;
      expect(rule.caution ?? '').toMatch(/qualified professional|doctor|decides|stop at|alone without pins/i);
      expect(ruleMarkdown(rule)).toContain(rule.caution);
      expect(rulePlainText(rule, 80).replace(/\s+/g, ' ')).toContain(rule.caution);
      expect(read(`server/rules/${code}.md`)).toContain(rule.caution);
    },
  );

  it.each(['heavy-early', 'stage-unsigned', 'screening-missing', 'screening-old', 'sprint-dose'])(
    '%s also says that screening comes first or local rules prevail',
    (code) => {
      expect(RULES.find((rule) => rule.code === code)?.caution).toMatch(
        /Screening comes first|Local rules prevail/i,
      );
    },
  );
});

/** What has to be said wherever somebody starts from: screening, stop signs, who decides, what prevails. */
const PARTS: readonly (readonly [string, RegExp])[] = [
  ['screening', /screen/i],
  ['the chest', /chest/i],
  ['dizziness', /dizz|faint/i],
  ['breath', /breath/i],
  ['pain', /pain/i],
  ['who decides', /qualified|doctor|professional/i],
  ['local rules', /local rules|rules of the house/i],
];

describe.each([
  ['the top of a plan', () => JSON.stringify(CAUTIONS)],
  ['the README', () => read('README.md').split('## Take care')[1]?.split('\n## ')[0] ?? ''],
])('%s', (_, text) => {
  it.each(PARTS)('speaks of %s', (_part, pattern) => {
    expect(text()).toMatch(pattern);
  });
});
