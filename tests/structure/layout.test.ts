import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { read, repositoryFiles, root } from './repository.js';

const files = repositoryFiles();
const binary = /\.(png|ttf|woff2?|pdf|vsix)$/;
const texts = files
  .filter((file) => !binary.test(file) && file !== 'package-lock.json')
  .map((file) => ({ file, lines: read(file).split('\n') }));

describe('the repository', () => {
  it('has the folders and files at its top that the developers page names, and no others', () => {
    const top = [...new Set(files.map((file) => file.split('/')[0] ?? ''))].filter(
      (name) => !name.startsWith('.'),
    );
    const allowed = new Set([
      ...['client', 'grammar', 'samples', 'seeds', 'server', 'tests'],
      ...['README.md', 'DEVELOPERS.md', 'CHANGELOG.md', 'LICENSE'],
      ...[
        'package.json',
        'package-lock.json',
        'package.nls.json',
        'package.nls.de.json',
        'package.nls.es.json',
        'tsconfig.json',
      ],
      // Tools look for these two at the top only.
      ...['biome.json', 'vitest.config.ts'],
    ]);
    expect(top.filter((name) => !allowed.has(name))).toEqual([]);
  });

  it('holds no built, installed or temporary files', () => {
    expect(
      files.filter((file) => /(^|\/)(node_modules|dist|out)\/|\.(vsix|log|tmp|bak|orig)$/.test(file)),
    ).toEqual([]);
  });

  it('has no two files that differ by case only', () => {
    const lower = files.map((file) => file.toLowerCase());
    expect(lower.filter((file, i) => lower.indexOf(file) !== i)).toEqual([]);
  });

  it('needs nothing outside itself: no path leads out of it', () => {
    const found = texts.flatMap(({ file, lines }) =>
      lines.flatMap((line, i) => {
        const climbs = [...line.matchAll(/(?<![\w.])(?:\.\.\/)+[\w-]+/g)]
          .map(([way]) => path.posix.normalize(path.posix.join(path.posix.dirname(file), way)))
          .filter((to) => to.startsWith('..'));
        const fixed = [...line.matchAll(/(?<=^|[\s'"`(=])\/(?:home|root|Users|work|mnt)\/[\w.-]+/g)].map(
          ([way]) => way,
        );
        return [...climbs, ...fixed].map((way) => `${file}:${i + 1}: ${way}`);
      }),
    );
    expect(found).toEqual([]);
  });

  it('leaves no marks for unfinished work', () => {
    // Written in parts, so that this line does not find itself.
    const mark = new RegExp(`\\b(${['TO' + 'DO', 'FIX' + 'ME', 'X' + 'XX', 'HA' + 'CK'].join('|')})\\b`);
    const found = texts.flatMap(({ file, lines }) =>
      lines.flatMap((line, i) => (mark.test(line) ? [`${file}:${i + 1}: ${line.trim()}`] : [])),
    );
    expect(found).toEqual([]);
  });

  it('keeps registry addresses out of the lock file', () => {
    expect(read('package-lock.json')).not.toContain('"resolved": "http');
  });

  it('keeps source files short', () => {
    const long = files
      .filter((file) => /^(client|grammar|server)\/.*\.(ts|tsx|mjs|cjs)$/.test(file))
      .filter((file) => read(file).split('\n').length > 600);
    expect(long).toEqual([]);
  });
});

describe('the manifest', () => {
  const manifest = JSON.parse(read('package.json'));
  const strings = JSON.parse(read('package.nls.json'));

  it('names files that are there', () => {
    const named: string[] = [];
    const visit = (value: unknown): void => {
      if (typeof value === 'string' && value.startsWith('./') && !value.startsWith('./dist/'))
        named.push(value);
      else if (value !== null && typeof value === 'object') Object.values(value).forEach(visit);
    };
    visit(manifest.contributes);
    if (manifest.icon) named.push(manifest.icon);
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter((file) => !fs.existsSync(path.join(root, file)))).toEqual([]);
  });

  it('has a text for each %key%, and no text without a key', () => {
    const keys = new Set([...JSON.stringify(manifest).matchAll(/"%([^"%]+)%"/g)].map((match) => match[1]));
    expect([...keys].sort()).toEqual(Object.keys(strings).sort());
  });

  it('pins every dependency', () => {
    const versions = Object.entries({ ...manifest.dependencies, ...manifest.devDependencies });
    expect(versions.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(String(version)))).toEqual([]);
  });

  it('is typed against the oldest editor that it says it supports', () => {
    const oldest = String(manifest.engines.vscode).replace('^', '').split('.');
    const types = String(manifest.devDependencies['@types/vscode']).split('.');
    expect(types.slice(0, 2)).toEqual(oldest.slice(0, 2));
  });

  it('has the newest version in the list of changes; what is not released yet may stand above it', () => {
    expect(/^## (?!Unreleased$)(\S+)/m.exec(read('CHANGELOG.md'))?.[1]).toBe(manifest.version);
  });

  it('twins each Ctrl key with Cmd', () => {
    const keys: { key: string; mac?: string }[] = manifest.contributes.keybindings ?? [];
    expect(keys.filter(({ key, mac }) => /ctrl/i.test(key) && !/cmd/i.test(mac ?? ''))).toEqual([]);
  });
});
