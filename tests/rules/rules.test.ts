import { describe, expect, it } from 'vitest';
import { ruleListMarkdown, ruleMarkdown, rulePlainText } from '../../server/src/engine/ruleReference.js';
import { RULES } from '../../server/src/engine/rules/index.js';
import { check, syntaxProblems } from './check.js';

describe('every rule', () => {
  it('has a code of its own', () => {
    const codes = RULES.map((rule) => rule.code);
    expect(new Set(codes).size).toBe(codes.length);
    for (const code of codes) expect(code).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
  });

  for (const rule of RULES) {
    describe(rule.code, () => {
      it('has all its parts', () => {
        for (const part of [
          rule.title,
          rule.what,
          rule.why,
          rule.source,
          rule.example,
          rule.better,
          rule.fix,
        ]) {
          expect(part.trim().length).toBeGreaterThan(5);
        }
        if (rule.noFix !== undefined) expect(ruleMarkdown(rule)).toContain(rule.noFix);
        // A source names where it was published, or says that there is none.
        expect(rule.source).toMatch(/\b(19|20)\d\d\b|no source/);
      });

      it('is found in its example, which is written without a slip', () => {
        expect(syntaxProblems(rule.example)).toEqual([]);
        expect(check(rule.example, [rule]).map((finding) => finding.code)).toContain(rule.code);
      });

      it('is not found in its better example, which has no error of any kind', () => {
        expect(syntaxProblems(rule.better)).toEqual([]);
        const found = check(rule.better, [rule]);
        expect(found.filter((finding) => finding.code === rule.code)).toEqual([]);
        expect(found.filter((finding) => finding.severity === 'error')).toEqual([]);
      });

      it('has a message that a coach can read aloud', () => {
        for (const { message } of check(rule.example, [rule]).filter(
          (finding) => finding.code === rule.code,
        )) {
          expect(message).not.toMatch(/undefined|null|NaN|Infinity|invalid|token|\[object/i);
          expect(message).toMatch(/[.?!]$/);
          expect(message).not.toMatch(/ {2}|\.\./);
        }
      });

      it('has a page in both forms', () => {
        expect(ruleMarkdown(rule)).toContain(`# ${rule.code}`);
        expect(ruleMarkdown(rule)).toContain(rule.example.trimEnd());
        for (const line of rulePlainText(rule, 80).split('\n')) expect(line.length).toBeLessThanOrEqual(100);
        expect(ruleListMarkdown(RULES)).toContain(`| [${rule.code}](${rule.code}.md) |`);
      });
    });
  }
});
