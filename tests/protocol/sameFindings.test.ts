import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { expect, it } from 'vitest';
import { repositoryFiles, root } from '../structure/repository.js';
import { Editor, uriOf } from './editor.js';

interface Line {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly severity: string;
  readonly code: string;
  readonly message: string;
}

const severities = ['', 'error', 'warning', 'info', 'hint'];

/** The samples, and a copy of them with mistakes of every kind. */
function folderWithMistakes(): string {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-same-'));
  for (const file of repositoryFiles()) {
    if (!/^samples\/boathouse\/.*\.stave$/.test(file)) continue;
    const target = path.join(folder, path.relative('samples/boathouse', file));
    fs.mkdirSync(path.dirname(target), { recursive: true });
    const text = fs.readFileSync(path.join(root, file), 'utf8');
    fs.writeFileSync(
      target,
      text
        .replace('back squat:', 'back sqat:')
        .replace('rest 90s', 'rest 9m')
        .replaceAll('2026-02-02', '2027-02-02'),
    );
  }
  return folder;
}

async function inEditor(folder: string): Promise<Line[]> {
  const editor = await Editor.start({ folders: [folder] });
  const lines: Line[] = [];
  const files = fs
    .readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.stave'));
  for (const file of files) {
    const uri = uriOf(path.join(folder, file));
    await editor.open(uri, fs.readFileSync(path.join(folder, file), 'utf8'));
    for (const { range, severity, code, message } of await editor.diagnostics(uri)) {
      lines.push({
        file,
        line: range.start.line + 1,
        column: range.start.character + 1,
        severity: severities[severity ?? 0] ?? '',
        code: String(code),
        message,
      });
    }
  }
  await editor.stop();
  return lines;
}

function onCommandLine(folder: string): Line[] {
  const { stdout } = spawnSync(
    process.execPath,
    [path.join(root, 'dist', 'stave.js'), 'check', '--format', 'json'],
    { cwd: folder, encoding: 'utf8', maxBuffer: 1 << 26 },
  );
  const { findings } = JSON.parse(stdout) as { findings: Line[] };
  return findings.map(({ file, line, column, severity, code, message }) => ({
    file,
    line,
    column,
    severity,
    code,
    message,
  }));
}

const inOrder = (lines: Line[]): string[] => lines.map((line) => JSON.stringify(line)).sort();

it.each([
  ['the sample', () => path.join(root, 'samples', 'boathouse'), false],
  ['the sample with mistakes', folderWithMistakes, true],
] as const)(
  'the editor and the command line find the same in %s',
  { timeout: 60_000 },
  async (_, make, isCopy) => {
    const folder = make();
    const seen = inOrder(await inEditor(folder));
    expect(seen.length).toBeGreaterThan(3);
    expect(seen).toEqual(inOrder(onCommandLine(folder)));
    if (isCopy) fs.rmSync(folder, { recursive: true });
  },
);
