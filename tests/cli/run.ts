import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { expect } from 'vitest';
import { root } from '../structure/repository.js';

/** The program as it is shipped. `npm test` builds it first; here it is built when it is not there. */
export const program = path.join(root, 'dist', 'stave.js');

export function ensureBuilt(): void {
  if (fs.existsSync(program)) return;
  const { status } = spawnSync(process.execPath, ['server/build/build.mjs'], { cwd: root, stdio: 'inherit' });
  expect(status).toBe(0);
}

export interface Ran {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the program on 25 November 2026, away from any terminal. */
export function stave(
  args: readonly string[],
  options: { cwd?: string; input?: string; env?: NodeJS.ProcessEnv } = {},
): Ran {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
    cwd: options.cwd ?? root,
    input: options.input ?? '',
    encoding: 'utf8',
    maxBuffer: 1 << 28,
    // 2026-11-25T12:00:00Z
    env: { ...process.env, SOURCE_DATE_EPOCH: '1795608000', NO_COLOR: undefined, ...options.env },
  });
  return { status, stdout, stderr };
}

/** A new folder with these files. */
export function folderWith(files: Readonly<Record<string, string>>): string {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-cli-'));
  for (const [name, text] of Object.entries(files)) {
    const file = path.join(folder, name);
    fs.mkdirSync(path.dirname(file), { recursive: true });
    fs.writeFileSync(file, text);
  }
  return folder;
}

/** The worked example of the language's reference. */
export const WINTER = fs.readFileSync(path.join(root, 'samples/winter/winter.stave'), 'utf8');
