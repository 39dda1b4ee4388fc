import { describe, expect, it } from 'vitest';
import { signedOff } from '../../server/src/engine/resolve/strength.js';
import { createSession } from '../../server/src/engine/session.js';

const stage = (ready: string, date = '2026-12-07') => {
  const session = createSession();
  session.setFile('a.stave', `client Robin\n  ready: ${ready}\n`);
  const client = session.world().clients.get('robin');
  return client && signedOff(client, 'squat', date).stage;
};

describe('sign-offs', () => {
  it('is learn without one, and before its date', () => {
    expect(stage('heavy press 2026-10-05')).toBe('learn');
    expect(stage('heavy squat 2026-12-08')).toBe('learn');
  });
  it('takes the newest, so that a lower one takes back', () => {
    expect(stage('heavy squat 2026-10-05, load squat 2026-11-01')).toBe('load');
    expect(stage('heavy all 2026-10-05, load squat 2026-10-01')).toBe('heavy');
  });
  it('takes the closer one of a day, and the lower one where two contradict each other', () => {
    expect(stage('load all 2026-10-05, heavy squat 2026-10-05')).toBe('heavy');
    expect(stage('heavy squat 2026-10-05, load squat 2026-10-05')).toBe('load');
  });
});
