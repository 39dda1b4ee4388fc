/** `allow` for what is found in logs: in the log, the client, her group; and the tidy removal of a line without use. */

import { describe, expect, it } from 'vitest';
import { RULES } from '../../server/src/engine/rules/index.js';
import { createSession } from '../../server/src/engine/session.js';
import { fixAll } from '../../server/src/engine/views/fixAll.js';
import { applyEdits } from '../../server/src/engine/views/format.js';
import { quickFixes } from '../../server/src/engine/views/quickFixes.js';
import { applyFix, found, KIT, sessionOf, syntaxProblems } from './check.js';

/** One log line for each rule about logs that makes it speak. */
const PROVOKED: Readonly<Record<string, string>> = {
  'log-far-off': 'back squat: 475kg 5',
  'one-side-only': 'split squat: 8/0',
  'pain-reported': 'pain: knee 6/10',
  'pain-next-morning': 'pain: hip 3/10',
};

type Level = 'nowhere' | 'log' | 'client' | 'group';

/** Rules that look at weeks of logs: their own example, which ends with the log that they speak of. */
const OF_WEEKS = ['session-overran', 'week-monotony', 'week-strain', 'workload-ratio'];

function withLog(code: string, level: Level, allowed = code): string {
  const allow = (at: Level) => (at === level ? `\n  allow: ${allowed} "seen by the physiotherapist"` : '');
  if (OF_WEEKS.includes(code)) {
    const example = RULES.find((rule) => rule.code === code)?.example.trimEnd() ?? '';
    const sections = `client Heron${allow('client')}\n\ngroup Morning\n  members: Heron${allow('group')}`;
    return `${example.replace('client Heron', sections)}${allow('log')}\n`;
  }
  return `${KIT}
client Heron
  trains at: Boathouse
  max: back squat, 47.5kg x5 r2, 2026-11-23${allow('client')}

client Wren

group Morning
  members: Heron${allow('group')}

log Heron, 2026-12-07
  as planned
  pain: hip 3/10

log Heron, 2026-12-08
  ${PROVOKED[code]}${allow('log')}
`;
}

describe('an allow line about logs', () => {
  const codes = RULES.filter((rule) => rule.inLogs).map((rule) => rule.code);
  it('is known for each rule that reads logs', () => {
    expect([...codes].sort()).toEqual([...Object.keys(PROVOKED), ...OF_WEEKS].sort());
  });

  it.each(codes)('%s speaks without one', (code) => {
    const text = withLog(code, 'nowhere');
    expect(syntaxProblems(text)).toEqual([]);
    expect(found(text, code)).toHaveLength(1);
  });

  for (const level of ['log', 'client', 'group'] as const) {
    it.each(codes)(`%s is silent with one in the ${level}, which counts as used`, (code) => {
      const text = withLog(code, level);
      expect(syntaxProblems(text)).toEqual([]);
      expect(found(text, code)).toEqual([]);
      expect(found(text, 'unused-allow')).toEqual([]);
    });

    it(`is found in the ${level} when it silences nothing`, () => {
      const text = withLog('pain-reported', level, 'log-far-off');
      expect(found(text, 'pain-reported')).toHaveLength(1);
      expect(found(text, 'unused-allow').map(({ message }) => message)).toEqual([
        'This line silences nothing: there is no "log-far-off" here. Take it away, so that it does not silence something new.',
      ]);
    });
  }

  it('of one client leaves the finding of another in the same log', () => {
    const text = withLog('pain-reported', 'client').replaceAll('log Heron', 'log Heron, Wren');
    const [finding, ...more] = found(text, 'pain-reported');
    expect(more).toEqual([]);
    expect(finding?.message).toContain('Wren');
    expect(finding?.message).not.toContain('Heron');
    expect(found(text, 'unused-allow')).toEqual([]);
  });

  it('of one log leaves what other logs report', () => {
    const text = `${withLog('pain-reported', 'log')}\nlog Heron, 2026-12-20\n  pain: knee 7/10\n`;
    expect(found(text, 'pain-reported').map(({ message }) => message)).toEqual([
      expect.stringContaining('2026-12-20'),
    ]);
  });

  it('needs its reason there too', () => {
    expect(syntaxProblems('log Heron, 2026-12-08\n  pain: knee 6/10\n  allow: pain-reported\n')).toEqual([
      expect.stringContaining('needs its reason'),
    ]);
  });

  it.each(codes)('%s is offered where the log stands, and then holds', (code) => {
    const off = RULES.some((rule) => rule.code === code && rule.severity === 'off');
    const session = createSession({ severities: off ? { [code]: 'info' } : {} });
    session.setFile('a', withLog(code, 'nowhere'));
    const text = session.text('a') as string;
    const offers = quickFixes(session, 'a', { start: 0, end: text.length }).filter(
      ({ kind, finding }) => kind === 'allow' && finding.code === code,
    );
    expect(offers.map(({ title }) => title)).toEqual([`Allow ${code} for this log, with a reason`]);
    session.setFile('a', applyEdits(text, offers[0]?.edits ?? []));
    expect(session.tree('a')?.problems).toEqual([]);
    expect(session.allFindings().filter((finding) => finding.code === code)).toEqual([]);
  });
});

describe('taking an unused allow line away', () => {
  const line = 'allow: stuck "old"';
  it.each([
    [
      'between others',
      `client Wren\n  units: kg\n  ${line}\n  born: 1980\n`,
      'client Wren\n  units: kg\n  born: 1980\n',
    ],
    [
      'with line breaks of two characters',
      `client Wren\r\n  ${line}\r\n  born: 1980\r\n`,
      'client Wren\r\n  born: 1980\r\n',
    ],
    ['at the end of the file', `client Wren\n  born: 1980\n  ${line}`, 'client Wren\n  born: 1980'],
    ['with spaces after it', `client Wren\n  ${line}  \n\nclient Heron\n`, 'client Wren\n\nclient Heron\n'],
    ['and leaving its note', `client Wren\n  ${line} -- ask her\n`, 'client Wren\n   -- ask her\n'],
    [
      'two in a row',
      `client Wren\n  ${line}\n  allow: jump-load "old"\n  born: 1980\n`,
      'client Wren\n  born: 1980\n',
    ],
  ])('leaves no empty line: %s', (_, before, after) => {
    const session = sessionOf(before);
    fixAll(session, session.files());
    expect(session.text(session.files()[0] as string)).toBe(after);
  });

  it('does the same when taken alone', () => {
    const text = `client Wren\n  ${line}\n  born: 1980\n`;
    const fix = found(text, 'unused-allow')[0]?.fixes[0];
    expect(fix && applyFix(text, fix)).toBe('client Wren\n  born: 1980\n');
  });
});
