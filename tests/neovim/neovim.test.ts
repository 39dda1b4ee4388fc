import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { root } from '../structure/repository.js';

// The language server in another editor: Debian's Neovim, without a window. tests/neovim/stave.lua is what runs there.

interface Answer {
  readonly filetype: string;
  readonly hints: { readonly label: string; readonly position: { readonly line: number } }[];
  readonly hover: { readonly contents: { readonly value: string } };
  readonly diagnostics: { readonly line: number; readonly message: string; readonly code: string }[];
  readonly formatted: string;
}

describe('in Neovim', () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-neovim-'));
  let answer: Answer;

  beforeAll(() => {
    const work = path.join(folder, 'work');
    fs.cpSync(path.join(root, 'samples', 'winter'), work, { recursive: true });
    const file = path.join(folder, 'answer.json');
    const setup = /```lua\n([\s\S]*?)```/.exec(fs.readFileSync(path.join(root, 'README.md'), 'utf8'))?.[1];
    fs.writeFileSync(path.join(folder, 'init.lua'), setup ?? '');
    // `stave` as it stands on the path of whoever has installed it.
    const program = `#!/bin/sh\nexec "${process.execPath}" "${path.join(root, 'dist', 'stave.js')}" "$@"\n`;
    fs.mkdirSync(path.join(folder, 'bin'));
    fs.writeFileSync(path.join(folder, 'bin', 'stave'), program, { mode: 0o755 });
    const script = path.join(root, 'tests', 'neovim', 'stave.lua');
    const { status, stderr, error } = spawnSync(
      'nvim',
      ['--headless', '-n', '-i', 'NONE', '-u', path.join(folder, 'init.lua'), '-S', script],
      {
        cwd: work,
        encoding: 'utf8',
        timeout: 60_000,
        env: {
          ...process.env,
          // Its log and state go where nothing is kept.
          XDG_CACHE_HOME: folder,
          XDG_STATE_HOME: folder,
          XDG_DATA_HOME: folder,
          PATH: `${path.join(folder, 'bin')}${path.delimiter}${process.env.PATH}`,
          STAVE_ANSWER: file,
        },
      },
    );
    if (error) throw new Error(`Neovim is needed for this test (Debian package neovim): ${error.message}`);
    expect(status, stderr).toBe(0);
    answer = JSON.parse(fs.readFileSync(file, 'utf8'));
  }, 90_000);

  afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

  it('the file is of the language', () => {
    expect(answer.filetype).toBe('stave');
  });

  it('gives the loads as hints', () => {
    const labels = answer.hints.map(({ label }) => label);
    expect(labels).toContain('= 47.5 kg');
    expect(labels.filter((label) => label === '= 45 kg')).toHaveLength(2);
  });

  it('explains a load', () => {
    expect(answer.hover.contents.value).toContain('Heron');
    expect(answer.hover.contents.value).toContain('45 kg');
  });

  it('shows a mistake where it was typed', () => {
    const found = answer.diagnostics.find(({ message }) => message.includes('back ssquat'));
    expect(found?.code).toBe('unknown-name');
    expect(found?.line).toBeGreaterThan(10);
  });

  it('lays the file out', () => {
    expect(answer.formatted).toMatch(/^ {2}back squat: +3x6 r2 warm rest 3min +\| 4x/);
  });
});
