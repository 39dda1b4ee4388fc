import { describe, expect, it } from 'vitest';
import { createSession } from '../../server/src/engine/session.js';
import { workspace } from '../engine/studio.js';
import { applyFix } from '../rules/check.js';

function found(logs: string, client?: string) {
  const text = `${workspace('  lift: 3x5 r2', client === undefined ? {} : { client })}\n${logs}\n`;
  const session = createSession({ today: null });
  session.setFile('a.stave', text);
  expect(session.tree('a.stave')?.problems).toEqual([]);
  return {
    text,
    session,
    findings: session.findings('a.stave').filter(({ code }) => code === 'log-far-off'),
  };
}

describe('log-far-off', () => {
  it('asks about 800 for 80, and its fix takes the digit away', () => {
    const { text, session, findings } = found('log Heron, 2026-12-07\n  lift: 800kg 5 5 5 r2');
    expect(findings).toHaveLength(1);
    expect(findings[0]?.message).toContain('Did you mean 80kg?');
    const fix = findings[0]?.fixes[0];
    if (!fix) throw new Error('no fix');
    session.setFile('a.stave', applyFix(text, fix));
    expect(session.text('a.stave')).toContain('lift: 80kg 5 5 5 r2');
    expect(session.findings('a.stave').filter(({ code }) => code === 'log-far-off')).toEqual([]);
  });

  it('is quiet for honest records, even far better ones', () => {
    expect(
      found('log Heron, 2026-12-07\n  lift: 110kg 3 r0\nlog Heron, 2026-12-14\n  lift: 60kg 15 r2').findings,
    ).toEqual([]);
  });

  it('knows what was usual where there is no max', () => {
    const usual = ['2026-12-07', '2026-12-08', '2026-12-09']
      .map((date) => `log Heron, ${date}\n  bells: 10kg 8`)
      .join('\n');
    expect(found(`${usual}\nlog Heron, 2026-12-10\n  bells: 20kg 8`, '').findings).toHaveLength(1);
    expect(found(`${usual}\nlog Heron, 2026-12-10\n  bells: 2kg 8`, '').findings).toHaveLength(1);
    expect(found(`${usual}\nlog Heron, 2026-12-10\n  bells: 14kg 8`, '').findings).toEqual([]);
    expect(found('log Heron, 2026-12-10\n  bells: 20kg 8', '').findings).toEqual([]);
  });

  describe('without a max and without earlier loads', () => {
    const planned = (rows: string, log: string) => {
      const text = `${workspace(rows, { client: '' })}\nlog Heron, 2026-12-07\n  ${log}\n`;
      const session = createSession({ today: null });
      session.setFile('a.stave', text);
      expect(session.tree('a.stave')?.problems).toEqual([]);
      const findings = () => session.findings('a.stave').filter(({ code }) => code === 'log-far-off');
      return { text, session, findings };
    };

    it('holds the plan of the day against a load', () => {
      const { text, session, findings } = planned('  bells: 3x8 10kg', 'bells: 100kg 8 8 8');
      expect(findings().map(({ message }) => message)).toEqual([
        '100kg of bells looks like a slip. Heron, 2026-12-07: 10 kg was planned. Did you mean 10kg?',
      ]);
      const fix = findings()[0]?.fixes[0];
      if (!fix) throw new Error('no fix');
      session.setFile('a.stave', applyFix(text, fix));
      expect(findings()).toEqual([]);
    });

    it('holds the plan of the day against repetitions', () => {
      expect(planned('  bells: 3x8 10kg', 'bells: 10kg 8 88 8').findings()[0]?.message).toBe(
        '88 reps of bells with 10kg look like a slip. Heron, 2026-12-07: 8 were planned. Check the number.',
      );
    });

    it('is quiet for what is near the plan, for a swap and for work that was not planned', () => {
      for (const log of ['bells: 14kg 8 8 8', 'bells: 4kg 8 8 8', 'bells: 10kg 20 20', 'lift: 100kg 8'])
        expect(planned('  bells: 3x8 10kg', log).findings(), log).toEqual([]);
      expect(planned('  lift: 3x8 30kg', 'swap: lift, to bells, 10kg 8 8').findings()).toEqual([]);
    });

    it('sees a change of the plan at once', () => {
      const { text, session, findings } = planned('  bells: 3x8 10kg', 'bells: 20kg 8 8 8');
      expect(findings()).toHaveLength(1);
      session.setFile('a.stave', text.replace('3x8 10kg', '3x8 14kg'));
      expect(findings()).toEqual([]);
      session.setFile('a.stave', text.replace('3x8 10kg', '3x8 8kg'));
      expect(findings()).toHaveLength(1);
    });
  });

  it('asks about 55 reps for 5', () => {
    expect(found('log Heron, 2026-12-07\n  lift: 80kg 5 55 5').findings[0]?.message).toContain(
      '55 reps of lift',
    );
  });

  it('sees a change of the log at once', () => {
    const { text, session } = found('log Heron, 2026-12-07\n  lift: 80kg 5 5 5 r2');
    session.setFile('a.stave', text.replace('80kg 5 5 5', '800lb 5 5 5'));
    expect(session.findings('a.stave').map(({ code }) => code)).toContain('log-far-off');
  });
});
