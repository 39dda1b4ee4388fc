import { describe, expect, it } from 'vitest';
import type { Severity } from '../../server/src/engine/model.js';
import {
  readRuleSettings,
  readSettingsFile,
  settingsFileShape,
} from '../../server/src/engine/ruleSettings.js';
import { RULES } from '../../server/src/engine/rules/index.js';
import { createSession, type SessionOptions } from '../../server/src/engine/session.js';
import { around, KIT } from './check.js';

const JUMP = around({ row: 'back squat: 3x6 40kg | 43kg' }).replace('1.25kg x2', '0.5kg x2, 1.25kg x2');

function messages(options: Partial<SessionOptions>, code: string): readonly string[] {
  const session = createSession(options);
  session.setFile('coach/a.stave', JUMP);
  return session
    .allFindings()
    .filter((finding) => finding.code === code)
    .map(({ message }) => message);
}

/** For numbers that the example of their rule does not come near to. */
const NEAR: Readonly<Record<string, string>> = {
  'body-unlikely': 'client Merlin\n  height: 200cm\n  mass: 120kg, 2026-11-01\n',
  // Of the second the mass is not known.
  'load-unchecked': `${KIT}
client Wren
  trains at: Boathouse
  ready: load squat 2026-06-01
  follows: Frost, from 2026-12-07, on mon

program Frost

block Keel, 1 week
day Lower
  goblet squat: 3x8 18kg r4

client Merlin
  trains at: Boathouse
  mass: 60kg, 2026-11-01
  ready: load squat 2026-06-01
  follows: Thaw, from 2026-12-07, on mon

program Thaw

block Keel, 1 week
day Lower
  goblet squat: 3x8 18kg r4
`,
  'pain-next-morning': `client Merlin

log Merlin, 2026-12-07
  as planned
  pain: knee 3/10

log Merlin, 2026-12-12
  as planned
  pain: knee 3/10
`,
  // Learning work of both halves of the body, load work and heavy work of both.
  'jump-load': `${KIT}
client Merlin
  trains at: Boathouse
  ready: heavy all 2026-06-01
  max: back squat, 47.5kg x5 r2, 2026-11-23
  max: bench press, 47.5kg x5 r2, 2026-11-23
  max: deadlift, 60kg x5 r2, 2026-11-23
  max: romanian deadlift, 60kg x5 r2, 2026-11-23
  max: overhead press, 22.5kg x6 r2, 2026-11-23
  max: one-arm dumbbell row, 16kg x5 r2, 2026-11-23
  follows: Thaw, from 2026-12-07, on mon

program Thaw

block Keel, 2 weeks
day Whole
  back squat: 3x8 20kg | 22.5kg
  bench press: 3x8 20kg | 22.5kg
  deadlift: 3x6 50kg | 60kg
  romanian deadlift: 3x8 50kg | 57.5kg
  overhead press: 3x8 17.5kg | 20kg
  one-arm dumbbell row: 3x5 14kg | 16kg
`,
  'back-too-fast': around({
    client:
      'ready: heavy all 2026-06-01\n  max: back squat, 47.5kg x5 r2, 2026-11-23\n  away: 2026-12-12 to 2027-01-20',
    row: 'back squat: 3x6 r3',
  }),
  'max-stale': around({
    client:
      'ready: heavy all 2026-06-01\n  max: back squat, 47.5kg x5 r2, 2026-11-01\n  away: 2026-11-05 to 2026-11-30',
    row: 'back squat: 3x6 r3',
  }),
  // Heron is away for five days between two sessions; Wren goes lighter in the fifth week.
  'deload-due': `${around({
    client:
      'ready: heavy all 2026-06-01\n  max: back squat, 47.5kg x5 r2, 2026-11-23\n  away: 2027-01-05 to 2027-01-09',
    block: 'Keel, 10 weeks',
    row: 'back squat: 3x6 r2',
  })}
client Wren
  trains at: Boathouse
  ready: heavy all 2026-06-01
  max: back squat, 47.5kg x5 r2, 2026-11-23
  follows: Spring, from 2026-12-07, on mon

program Spring

block Ebb, 10 weeks
day Lower
  back squat: 3x6 r2 | | | | r6 | r2
`,
  // In her second year, on four days.
  'days-many': around({ client: 'lifting since: 2025-10', on: 'mon tue thu sat', row: 'front plank: 2x20s' }),
  // A third of the sets have few reps enough, and the week has six sets.
  'aim-mismatch': around({
    client:
      'lifting since: 2025-01\n  ready: heavy all 2026-06-01\n  max: back squat, 47.5kg x5 r2, 2026-11-23',
    row: 'back squat: 2x8 r3 ; 4x3 60%',
  }).replace('program Winter', 'program Winter\n  aim: size'),
  'screening-old': RULES.find(({ code }) => code === 'screening-old')?.example ?? '',
  'far-off': around({ row: 'back squat: 3x6 r2 | +15%\n  bench press: 3x6 40kg | 18kg' }),
  // Triples that are not heavy, from eleven to failure.
  'max-imprecise': around({
    client: 'ready: heavy all 2026-06-01\n  max: back squat, 40kg x8 r3, 2026-11-23',
    row: 'back squat: 3x3 r6',
  }),
};

describe('numbers of rules', () => {
  it('change what is found, and what is said', () => {
    expect(messages({}, 'jump-load')).toEqual([]);
    const [strict] = messages({ options: { 'jump-load': { maxPercent: 5 } } }, 'jump-load');
    expect(strict).toContain('more than 5 %');
  });

  it('hold for the files that they are set for', () => {
    const strict = { severities: {}, options: { 'jump-load': { maxPercent: 5 } } };
    const settingsFor = (file: string) => (file.startsWith('coach/') ? strict : null);
    expect(messages({ settingsFor }, 'jump-load')).toHaveLength(1);
    expect(messages({ settingsFor: () => null }, 'jump-load')).toEqual([]);
    // What lies beside the file goes before what is set for all.
    const loose = { options: { 'jump-load': { maxPercent: 30 } } };
    expect(messages({ ...loose, settingsFor }, 'jump-load')).toHaveLength(1);
    expect(messages({ ...loose, settingsFor: () => null }, 'jump-load')).toEqual([]);
    const off = { severities: { 'jump-load': 'off' }, options: {} } as const;
    expect(messages({ options: strict.options, settingsFor: () => off }, 'jump-load')).toEqual([]);
  });

  it.each(RULES.flatMap((rule) => (rule.options ?? []).map((option) => [rule.code, option] as const)))(
    '%s: $key has a default inside its range, and words',
    (_, option) => {
      expect(option.default).toBeGreaterThanOrEqual(option.least);
      expect(option.default).toBeLessThanOrEqual(option.most);
      expect(option.what.length).toBeGreaterThan(8);
      expect(option.key).toMatch(/^[a-z]+([A-Z][a-z]+)+$/);
    },
  );

  it('make a difference in every rule that has them', () => {
    // Somewhere between its ends each number changes what the rule's own examples give.
    const silent: string[] = [];
    for (const rule of RULES) {
      for (const option of rule.options ?? []) {
        const results = new Set(
          [option.least, option.default, option.most].map((value) => {
            const options = { [rule.code]: { [option.key]: value } };
            const severities: Record<string, Severity> =
              rule.severity === 'off' ? { [rule.code]: 'info' } : {};
            const session = createSession({ options, severities });
            session.setFile('a', rule.example);
            const near = createSession({ options, severities, today: '2026-11-20' });
            near.setFile('a', NEAR[rule.code] ?? rule.better);
            const found = [...session.allFindings(), ...near.allFindings()];
            return JSON.stringify(found.filter(({ code }) => code === rule.code));
          }),
        );
        if (results.size === 1) silent.push(`${rule.code}.${option.key}`);
      }
    }
    expect(silent).toEqual([]);
  });
});

describe('stave.json', () => {
  it('takes a severity, or a severity with numbers', () => {
    const text =
      '\ufeff{ "$schema": "x", "rules": { "stuck": "off", "jump-load": { "severity": "warning", "maxPercent": 10 } } }';
    expect(readSettingsFile(text)).toEqual({
      settings: {
        severities: { stuck: 'off', 'jump-load': 'warning' },
        options: { 'jump-load': { maxPercent: 10 } },
      },
      problems: [],
    });
    expect(readSettingsFile('{}').problems).toEqual([]);
    expect(readSettingsFile('{ "signOff": { "heavy": { "sessions": 60 } } }')).toEqual({
      settings: { severities: {}, options: {}, signOff: { heavy: { sessions: 60 } } },
      problems: [],
    });
  });

  it.each([
    ['{ "rules": { "stuk": "off" } }', 'No rule is called "stuk". Did you mean "stuck"?'],
    ['{ "rules": { "stuck": "of" } }', '"stuck" cannot have the severity "of". Did you mean "off"?'],
    ['{ "rules": { "stuck": 3 } }', '"stuck" takes a severity, or an object like'],
    [
      '{ "rules": { "jump-load": { "maxpercent": 5 } } }',
      '"jump-load" has no option "maxpercent". Did you mean "maxPercent"?',
    ],
    [
      '{ "rules": { "jump-load": { "maxPercent": 900 } } }',
      '"maxPercent" of "jump-load" has to be a number from 1 to 30; found 900.',
    ],
    ['{ "rules": { "jump-load": { "maxPercent": "5" } } }', 'has to be a number from 1 to 30; found "5".'],
    ['{ "rules": { "unknown-word": "off" } }', 'is a mistake in the notation, not a rule'],
    ['{ "stuck": "off" }', '"stuck" stands outside of "rules".'],
    ['{ "rule": {} }', 'There is no setting "rule" here. Did you mean "rules"?'],
    ['{ "signoff": {} }', 'Did you mean "signOff"?'],
    ['{ "signOff": { "heavy": { "sessions": "60" } } }', 'has to be a number from 1 to 500; found "60".'],
    ['{ "rules": [] }', '"rules" has to be an object'],
    ['[]', 'It has to begin with { and end with }'],
    ['{ "rules": { "stuck": "off", } }', 'This is not JSON'],
  ])('%s is answered in words, and sets nothing', (text, words) => {
    const { settings, problems } = readSettingsFile(text);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toContain(words);
    expect(problems[0]).not.toMatch(/invalid|token|undefined|expected/i);
    expect(settings).toEqual({ severities: {}, options: {} });
  });

  it('keeps what is right beside what is not', () => {
    const read = readRuleSettings({ stuck: 'off', 'jump-load': { severity: 'loud' } });
    expect(read.settings.severities).toEqual({ stuck: 'off' });
    expect(read.problems).toHaveLength(1);
  });

  it('has a shape that knows every rule', () => {
    for (const rule of RULES) {
      const options = Object.fromEntries((rule.options ?? []).map((option) => [option.key, option.default]));
      const whole = { rules: { [rule.code]: { severity: 'hint', ...options } } };
      expect(settingsFileShape().safeParse(whole).success).toBe(true);
      expect(settingsFileShape().safeParse({ rules: { [rule.code]: { wrong: 1 } } }).success).toBe(false);
    }
  });
});
