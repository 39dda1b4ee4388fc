import { DEPARTURES, type Departure } from '../../reference/departures.js';
import { differenceOf, type PublishedValue } from '../../reference/publishedValue.js';
import { PUBLISHED_VALUES } from '../../reference/publishedValues.js';

/** Digits that tell a value from its neighbours, without the noise of binary fractions. */
function text(value: number): string {
  return String(Number(value.toPrecision(8)));
}

function row(value: PublishedValue): string {
  const { what, published, own, tolerance, toleranceIs, source } = value;
  const printed =
    typeof published === 'number' ? text(published) : `${text(published[0])} to ${text(published[1])}`;
  const difference = Number(differenceOf(value).toPrecision(3));
  const within = typeof published !== 'number' && difference === 0;
  const room = tolerance === 0 ? 'exact' : `${text(tolerance)}${toleranceIs ? ` (${toleranceIs})` : ''}`;
  // Noise of binary fractions is no difference.
  const apart = Math.abs(difference) < 1e-9 ? '0' : text(difference);
  return `| ${what} | ${printed} | ${text(own)} | ${within ? 'inside' : apart} | ${room} | ${source} |`;
}

function departure({ what, published, own, why, source }: Departure): string {
  return `| ${what} | ${published} | ${own} | ${why} | ${source} |`;
}

/** The page that shows every published value beside the engine's own. */
export function generate(): Record<string, string> {
  const topics = new Map<string, PublishedValue[]>();
  for (const value of PUBLISHED_VALUES) {
    const known = topics.get(value.topic);
    if (known) known.push(value);
    else topics.set(value.topic, [value]);
  }
  const tables = [...topics].map(([topic, values]) =>
    [
      `## ${topic}`,
      '',
      '| what | published | Stave | difference | tolerance | source |',
      '| --- | --- | --- | --- | --- | --- |',
      ...values.map(row),
    ].join('\n'),
  );
  const intro = `# Published values and Stave's own

Worked out by the engine when this page was made; a test holds each value to its tolerance. "Computed" is arithmetic on a
published form; "from memory" was not seen in print. The tolerance is in the value's own unit: half of the last printed
digit where the source rounds, more where two printed forms of one equation exist or where the source itself states an error.
Where a range is published, Stave's value has to lie inside it; the tolerance is then the room beside it.

What these agree on is arithmetic, not truth about a person. Prediction equations differ from one another by a tenth and
more beyond ten repetitions, and people differ more: a load is a first guess that the first set corrects. The ratios of
workload are contested and are shown for information alone.

${PUBLISHED_VALUES.length} values.`;
  const departures = `## Where Stave departs, or has no use for a value

${DEPARTURES.length} values. Each is a choice; where sources disagree, the careful side was taken.

| what | published | Stave | why | source |
| --- | --- | --- | --- | --- |
${DEPARTURES.map(departure).join('\n')}`;
  return { 'server/reference/values.md': `${[intro, ...tables, departures].join('\n\n')}\n` };
}
