/** The shapes in which findings are written, for people and for other programs. */
import { RULES } from '../engine/rules/index.js';
import { conciseLine, oneLine } from '../engine/views/concise.js';
import type { Workspace } from './files.js';
import type { Found } from './found.js';
import type { Io } from './io.js';
import { coloursOf, counted, visible, wrapText } from './text.js';

export const FORMATS = ['text', 'concise', 'json', 'github', 'sarif'] as const;
export type ReportFormat = (typeof FORMATS)[number];

/** The report of the findings in one of the formats, with its last line break. */
export function report(
  format: ReportFormat,
  found: readonly Found[],
  workspace: Workspace,
  io: Io,
  version: string,
): string {
  switch (format) {
    case 'text':
      return textReport(found, workspace, io);
    case 'concise':
      return found.map((finding) => `${conciseLine(finding)}\n`).join('');
    case 'json':
      return `${JSON.stringify({ version: 1, findings: found }, null, 2)}\n`;
    case 'github':
      return found.map(githubLine).join('');
    case 'sarif':
      return `${JSON.stringify(sarif(found, version), null, 2)}\n`;
  }
}

const SEVERITY_WORDS: Readonly<Record<Found['severity'], string>> = {
  error: 'error',
  warning: 'warning',
  info: 'note',
  hint: 'hint',
};

function textReport(found: readonly Found[], workspace: Workspace, io: Io): string {
  const colour = coloursOf(io);
  const tint = { error: colour.red, warning: colour.yellow, info: colour.cyan, hint: colour.dim };
  const blocks = found.map((finding) => {
    const { file, line, column, severity, code } = finding;
    const head = `${visible(file)}:${line}:${column}  ${colour.bold(tint[severity](SEVERITY_WORDS[severity]))}  ${colour.dim(code)}`;
    const related = finding.related.map(({ file, line, column, message }) =>
      colour.dim(wrapText(`${visible(file)}:${line}:${column} ${oneLine(message)}`, io.width, '    ')),
    );
    const message = finding.message
      .split('\n')
      .map((part) => wrapText(visible(part), io.width, '  '))
      .join('\n');
    return [head, excerpt(finding, workspace, io), message, ...related].join('\n');
  });
  return `${[...blocks, summary(found, workspace, io)].join('\n\n')}\n`;
}

/** The line of the file with the characters at fault underlined, cut to the width around them. */
function excerpt(finding: Found, workspace: Workspace, io: Io): string {
  const colour = coloursOf(io);
  const line = visible(workspace.positions(finding.file).line(finding.line));
  const number = `${String(finding.line).padStart(5)} | `;
  const room = io.width - number.length;
  const start = finding.column - 1;
  const end =
    finding.endLine === finding.line
      ? Math.max(finding.endColumn - 1, start + 1)
      : Math.max(line.length, start + 1);
  const from = line.length <= room ? 0 : Math.max(0, Math.min(start - 10, line.length - room));
  const marks = ' '.repeat(start - from) + '^'.repeat(Math.max(1, Math.min(end, from + room) - start));
  return `${colour.dim(number)}${line.slice(from, from + room)}\n${colour.dim(`${' '.repeat(5)} | `)}${colour.bold(marks)}`;
}

function summary(found: readonly Found[], workspace: Workspace, io: Io): string {
  const files = counted(workspace.shown.length, 'file');
  const count = (severity: Found['severity'], one: string) => {
    const number = found.filter((finding) => finding.severity === severity).length;
    return number === 0 ? [] : [counted(number, one)];
  };
  const parts = [
    ...count('error', 'error'),
    ...count('warning', 'warning'),
    ...count('info', 'note'),
    ...count('hint', 'hint'),
  ];
  const first =
    parts.length === 0
      ? `Nothing found in ${files}.`
      : `${parts.join(', ')} in ${files}. \`stave explain CODE\` says more.`;
  const unknown = workspace.lookedUpIn.length > 0 && found.some(({ code }) => code === 'unknown-name');
  const hint = `Names were looked up in ${workspace.lookedUpIn.map((folder) => `"${folder}"`).join(', ')} and below; \`--in FOLDER\` looks in another folder.`;
  return unknown ? `${first}\n${wrapText(hint, io.width)}` : first;
}

const GITHUB_LEVELS: Readonly<Record<Found['severity'], string>> = {
  error: 'error',
  warning: 'warning',
  info: 'notice',
  hint: 'notice',
};

/** Workflow commands of GitHub Actions. */
function githubLine({ file, line, column, endLine, endColumn, severity, code, message }: Found): string {
  const data = (text: string) => text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
  const property = (text: string | number) =>
    data(String(text)).replaceAll(':', '%3A').replaceAll(',', '%2C');
  // An end is allowed only on the same line.
  const end = endLine === line ? `,endColumn=${property(endColumn)}` : '';
  const at = `file=${property(file)},line=${property(line)},endLine=${property(endLine)},col=${property(column)}${end}`;
  return `::${GITHUB_LEVELS[severity]} ${at},title=${property(code)}::${data(message)}\n`;
}

const SARIF_LEVELS: Readonly<Record<Found['severity'], string>> = {
  error: 'error',
  warning: 'warning',
  info: 'note',
  hint: 'note',
};

/** Static Analysis Results Interchange Format, version 2.1.0. */
function sarif(found: readonly Found[], version: string): object {
  const known = new Map(RULES.map((rule) => [rule.code, rule]));
  const codes = [...new Set(found.map(({ code }) => code))].sort();
  const location = (
    place: Omit<Found, 'code' | 'severity' | 'message' | 'related' | 'fixable'>,
    message?: string,
  ) => ({
    physicalLocation: {
      artifactLocation: { uri: place.file.split('/').map(encodeURIComponent).join('/') },
      region: {
        startLine: place.line,
        startColumn: place.column,
        endLine: place.endLine,
        endColumn: place.endColumn,
      },
    },
    ...(message === undefined ? {} : { message: { text: message } }),
  });
  return {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'stave',
            version,
            rules: codes.map((code) => ({
              id: code,
              shortDescription: { text: known.get(code)?.title ?? 'A mistake in the notation' },
              ...(known.has(code) ? { fullDescription: { text: known.get(code)?.what } } : {}),
            })),
          },
        },
        columnKind: 'utf16CodeUnits',
        results: found.map((finding) => ({
          ruleId: finding.code,
          ruleIndex: codes.indexOf(finding.code),
          level: SARIF_LEVELS[finding.severity],
          message: { text: finding.message },
          locations: [location(finding)],
          relatedLocations: finding.related.map((related) => location(related, related.message)),
        })),
      },
    ],
  };
}
