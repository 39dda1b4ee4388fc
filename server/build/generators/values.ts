import { PUBLISHED_VALUES, type PublishedValue } from '../../reference/publishedValues.js';

/** Digits that tell a value from its neighbours, without the noise of binary fractions. */
function text(value: number): string {
  return String(Number(value.toPrecision(8)));
}

function row({ what, published, own, tolerance, source }: PublishedValue): string {
  return `| ${what} | ${text(published)} | ${text(own)} | ${tolerance === 0 ? 'exact' : text(tolerance)} | ${source} |`;
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
      '| what | published | Stave | tolerance | source |',
      '| --- | --- | --- | --- | --- |',
      ...values.map(row),
    ].join('\n'),
  );
  const intro = `# Published values and Stave's own

Worked out by the engine when this page was made; a test holds each value to its tolerance. "Computed" is arithmetic on a
published form; "from memory" was not seen in print. The tolerance is in the value's own unit: half of the last printed
digit where the source rounds, more where two printed forms of one equation exist.

What these agree on is arithmetic, not truth about a person. Prediction equations differ from one another by a tenth and
more beyond ten repetitions, and people differ more: a load is a first guess that the first set corrects. The ratios of
workload are contested and are shown for information alone.

${PUBLISHED_VALUES.length} values.`;
  return { 'server/reference/values.md': `${[intro, ...tables].join('\n\n')}\n` };
}
