import {
  ASKED_WEEKS,
  LOAD_LEAST_SHARE,
  LOAD_MOST_SHARE,
  lifterResult,
  SEEDS,
  WEEKS,
} from '../../reference/simulatedLifter.js';

const percent = (share: number): string => `${(share * 100).toFixed(1)} %`;
const mean = (values: readonly number[]): number =>
  values.reduce((sum, each) => sum + each, 0) / values.length;

/** What Stave reads from the logs of lifters whose true strength is known. */
export function generate(): Record<string, string> {
  const results = Array.from({ length: SEEDS }, (_, seed) => lifterResult(seed + 1));
  const rows = ASKED_WEEKS.map((week, index) => {
    const asked = results.flatMap((result) => result.asked[index] ?? []);
    const errors = asked.map(({ errorShare }) => errorShare);
    const cells = [
      `week ${week}`,
      `${asked.filter(({ inside }) => inside).length} of ${asked.length}`,
      percent(mean(errors)),
      `${percent(Math.min(...errors))} to ${percent(Math.max(...errors))}`,
      `± ${percent(mean(asked.map(({ bandShare }) => bandShare)))}`,
    ];
    return `| ${cells.join(' | ')} |`;
  });
  const offered = results.flatMap(({ offeredShare }) => offeredShare ?? []);
  const right = offered.filter((share) => share >= LOAD_LEAST_SHARE && share <= LOAD_MOST_SHARE);
  const page = `# A simulated lifter

Worked out by the engine when this page was made, and held by \`tests/history/simulated.test.ts\`. ${SEEDS} lifters (seeds 1 to
${SEEDS}) log two sets a week for ${WEEKS} weeks. Their true maximum rises from 60 kg towards 90 kg. Each guesses her reserve 0.95 ± 0.4
repetitions too few, in whole repetitions (Halperin et al., Sports Med 2022;52(2):377-390), and differs from the curve by 3.3 %
(Kemmler et al., J Strength Cond Res 2006;20(4)); days differ by 2 % and a guess by half a repetition (both assumed). How the
estimate is made is told in [What was done](history.md#strength-from-the-log).

| asked after | truth inside the band | mean error | errors | mean half band |
| --- | --- | --- | --- | --- |
${rows.join('\n')}

The mean error is below the truth, the careful side. After ${WEEKS} weeks a new max line is on offer for ${offered.length} of ${SEEDS}; the load
that it leads to lies between ${percent(Math.min(...offered))} and ${percent(Math.max(...offered))} of the right one (mean ${percent(mean(offered))}), and between
${percent(LOAD_LEAST_SHARE)} and ${percent(LOAD_MOST_SHARE)} of it for ${right.length} of ${SEEDS}.

These are lifters on paper: real people differ more, learn the movement, sleep badly and fall ill.
`;
  return { 'server/reference/simulated.md': page };
}
