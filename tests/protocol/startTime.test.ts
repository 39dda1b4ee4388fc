import { expect, it } from 'vitest';
import { measureStart } from '../../server/build/startTime.mjs';

it('answers the greeting within 1.5 times an empty server of the same framework', {
  timeout: 60_000,
}, async () => {
  const { ratio, ours, empty } = await measureStart(9);
  expect(ratio, `${ours.toFixed(0)} ms against ${empty.toFixed(0)} ms`).toBeLessThan(1.5);
});
