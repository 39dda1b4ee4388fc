import { formatNumber } from './numbers.js';
import { looksAtPlans, type Rule } from './ruleForm.js';

/** The page of a rule, for the reference (Markdown) and for reading in a terminal (plain text). */

const SEVERITY_WORDS: Readonly<Record<Rule['severity'], string>> = {
  error: 'error',
  warning: 'warning',
  info: 'information',
  hint: 'hint',
  off: 'off until it is switched on',
};

function parts(rule: Rule): readonly (readonly [string, string])[] {
  return [
    ['What it finds', rule.what],
    ['Why it matters', rule.why],
    ['What to do', rule.noFix === undefined ? rule.fix : `${rule.fix} There is no quick fix: ${rule.noFix}`],
    ...(rule.caution === undefined ? [] : [['Caution', rule.caution] as const]),
    ['Source', rule.source],
  ];
}

/** How to silence or change a rule; the same words on every page. */
function controlText(rule: Rule): string {
  const options = (rule.options ?? []).map(
    ({ key, what, default: usual }) => `\`${key}\` (${what}; ${formatNumber(usual)})`,
  );
  const first = rule.options?.[0];
  const numbers =
    first === undefined
      ? ''
      : ` So can ${options.join(', ')}: \`{ "rules": { "${rule.code}": { "severity": "warning", "${first.key}": ${formatNumber(first.default)} } } }\` in a \`stave.json\` beside the files, or the same in the editor's settings.`;
  return `Its severity can be set for each folder, in a \`stave.json\` beside the files or in the editor's settings.${numbers} ${allowText(rule)}`;
}

/** Where an `allow` line silences a rule, if anywhere. */
function allowText(rule: Rule): string {
  const places = [
    ...(rule.inLogs ? ['in the log, its client or her group'] : []),
    ...(looksAtPlans(rule) ? ['in a client, group, program, block, day or circuit, or under a row'] : []),
  ];
  return places.length === 0
    ? 'An `allow` line cannot silence it: what it is about has to be put right.'
    : `\`allow: ${rule.code} "why"\` ${places.join(', or ')}, silences it there; the reason is required.`;
}

/** The reference page of one rule as Markdown. */
export function ruleMarkdown(rule: Rule): string {
  const body = parts(rule).map(([title, text]) => `## ${title}\n\n${text}`);
  return [
    `# ${rule.code}: ${rule.title}`,
    `Default severity: ${SEVERITY_WORDS[rule.severity]}.`,
    ...body,
    `## Example\n\n\`\`\`stave\n${rule.example.trimEnd()}\n\`\`\``,
    `## Better\n\n\`\`\`stave\n${rule.better.trimEnd()}\n\`\`\``,
    `## Control\n\n${controlText(rule)}`,
  ]
    .join('\n\n')
    .concat('\n');
}

/** The list of all rules as Markdown, with a link to the page of each (`CODE.md` beside it). */
export function ruleListMarkdown(rules: readonly Rule[]): string {
  const rows = [...rules]
    .sort((a, b) => (a.code < b.code ? -1 : 1))
    .map((rule) => `| [${rule.code}](${rule.code}.md) | ${rule.title} | ${SEVERITY_WORDS[rule.severity]} |`);
  const control =
    'Rules are set for a folder and everything below it in a `stave.json` beside the files, or in the editor\'s settings (`stave.rules`), which it goes before. Of several `stave.json` above a file the nearest counts. A rule takes a severity, or a severity with its numbers:\n\n```json\n{ "rules": { "stuck": "off", "jump-load": { "severity": "warning", "maxPercent": 5 } } }\n```';
  return `# Rules\n\n${control}\n\n| code | what it is about | default |\n| --- | --- | --- |\n${rows.join('\n')}\n`;
}

/** The page of one rule as plain text for a terminal, wrapped at `width` columns. */
export function rulePlainText(rule: Rule, width = 80): string {
  const section = (title: string, text: string) => `${title}\n${wrap(text, width - 2, '  ')}`;
  const code = (text: string) =>
    text
      .trimEnd()
      .split('\n')
      .map((line) => (line === '' ? '' : `    ${line}`))
      .join('\n');
  return [
    `${rule.code}: ${rule.title}`,
    `Default severity: ${SEVERITY_WORDS[rule.severity]}.`,
    ...parts(rule).map(([title, text]) => section(title, text)),
    `Example\n${code(rule.example)}`,
    `Better\n${code(rule.better)}`,
    section('Control', controlText(rule).replaceAll('`', '')),
  ]
    .join('\n\n')
    .concat('\n');
}

/** Breaks text between words; a word longer than a line stands alone. */
function wrap(text: string, width: number, indent: string): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(indent + line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  if (line !== '') lines.push(indent + line);
  return lines.join('\n');
}
