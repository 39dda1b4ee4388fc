import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { builtinModules } from 'node:module';
import os from 'node:os';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { root } from '../structure/repository.js';

// The package as it goes to the coach's editor.

const manifest = JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8'));

/** Everything in the package; `*` stands for what the build or the rules name. */
const contents = [
  'CHANGELOG.md',
  'LICENSE',
  'README.md',
  'client/l10n/bundle.l10n*.json',
  'client/language-configuration.json',
  'client/media/*.{png,svg,stave}',
  'dist/*.mjs',
  'dist/THIRD-PARTY.txt',
  'dist/extension.cjs',
  'dist/fonts/DejaVuSansCondensed-Bold.ttf',
  'dist/fonts/DejaVuSansCondensed.ttf',
  'dist/fonts/LICENSE',
  'dist/languageClient.cjs',
  'dist/preview.css',
  'dist/preview.js',
  'dist/server.cjs',
  'dist/stave.js',
  'dist/web/extension.js',
  'dist/web/server.js',
  'grammar/markdown.tmLanguage.json',
  'grammar/stave.tmLanguage.json',
  'package.json',
  'package.nls*.json',
  'server/l10n/*.json',
  'server/rules/*.md',
  'server/rules/stave.schema.json',
];
/** The parts that are loaded when needed. What they share gets a name from its content. */
const lazy =
  /^dist\/(?:calendarFile|clientAnswers|commands|features|pdf|pdfPool|pdfWorker|shared-[A-Z0-9]{8})\.mjs$/;

const patterns = contents.map((pattern) => {
  const escaped = pattern.replace(/[.+^$()|[\]\\]/g, '\\$&').replaceAll('*', '[^/]*');
  return new RegExp(
    `^${escaped.replace(/\{([^}]*)\}/g, (_, names: string) => `(?:${names.replaceAll(',', '|')})`)}$`,
  );
});

let listed: string[] = [];

beforeAll(() => {
  const vsce = ['node_modules/@vscode/vsce/vsce', 'ls', '--no-dependencies'];
  const { stdout } = spawnSync(process.execPath, vsce, { cwd: root, encoding: 'utf8' });
  listed = stdout.split('\n').filter((file) => file !== '');
}, 60_000);

describe('the package', () => {
  it('holds what is listed here, all of it and nothing else', () => {
    expect(listed.filter((file) => !patterns.some((pattern) => pattern.test(file)))).toEqual([]);
    expect(contents.filter((_, index) => !listed.some((file) => patterns[index]?.test(file)))).toEqual([]);
    expect(listed.filter((file) => file.endsWith('.mjs') && !lazy.test(file))).toEqual([]);
  });

  it('is smaller than 3 MB, and packed without a warning', () => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-package-'));
    const file = path.join(folder, 'stave.vsix');
    const { stdout, stderr, status } = spawnSync(
      process.execPath,
      ['server/build/package.mjs', '--built', '--out', file],
      { cwd: root, encoding: 'utf8' },
    );
    expect(status, stderr).toBe(0);
    expect(`${stdout}${stderr}`).not.toMatch(/warning/i);
    expect(fs.statSync(file).size).toBeLessThan(3_000_000);
    fs.rmSync(folder, { recursive: true, force: true });
  }, 60_000);

  it('starts by language, command, panel or task alone', () => {
    const events: string[] = manifest.activationEvents ?? [];
    expect(events.filter((event) => !/^on(Language|Command|WebviewPanel|TaskType):/.test(event))).toEqual([]);
  });

  it('has no more than 25 settings, each with a scope and a description', () => {
    const sections: { properties: Record<string, object> }[] = manifest.contributes.configuration;
    const settings = sections.flatMap(({ properties }) => Object.entries(properties));
    expect(settings.length).toBeLessThanOrEqual(25);
    for (const [name, setting] of settings) {
      expect(setting, name).toHaveProperty('scope');
      expect(setting, name).toHaveProperty('markdownDescription');
    }
  });
});

describe('the bundles for a browser', () => {
  const names = builtinModules.flatMap((name) => [name, `node:${name}`]);

  it.each(['extension.js', 'server.js'])('web/%s needs nothing of Node', (file) => {
    const text = fs.readFileSync(path.join(root, 'dist', 'web', file), 'utf8');
    const asked = [...text.matchAll(/(?<!\.)\b(?:require|import)\(\s*["'`]([^"'`]+)["'`]\s*\)/g)].map(
      ([, name]) => name,
    );
    expect(asked.filter((name) => names.includes(name ?? '') || name?.startsWith('.'))).toEqual([]);
    expect([...new Set(asked)]).toEqual(file === 'extension.js' ? ['vscode'] : []);
    expect(text).not.toMatch(/["'`]node:[a-z]+["'`]/);
  });

  it('are offered for folders without a disk and folders that are not trusted', () => {
    expect(manifest.capabilities.virtualWorkspaces).toBe(true);
    expect(manifest.capabilities.untrustedWorkspaces).toEqual({ supported: true });
    expect(manifest.browser).toBe('./dist/web/extension.js');
  });
});
