import { execFileSync, spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { HOSTILE_NAMES, hostileWorkspace } from '../export/workspaces.js';
import { ensureBuilt, folderWith, program, stave, WINTER } from './run.js';

beforeAll(ensureBuilt, 300_000);

const written = (folder: string): string[] => fs.readdirSync(folder).sort();

describe('stave plan', () => {
  it('writes every format of the plan, the same bytes each time', () => {
    const folder = folderWith({ 'winter.stave': WINTER });
    for (const out of ['one', 'two']) {
      const { status, stderr } = stave(
        ['plan', '--for', 'heron', '--to', 'html,pdf,ics,csv,json,md', '-o', out],
        { cwd: folder },
      );
      expect(stderr).toBe('');
      expect(status).toBe(0);
    }
    const names = ['csv', 'html', 'ics', 'json', 'md', 'pdf'].map((ending) => `Heron-plan.${ending}`);
    expect(written(path.join(folder, 'one'))).toEqual(names);
    for (const name of names) {
      const [one, two] = ['one', 'two'].map((out) => fs.readFileSync(path.join(folder, out, name)));
      expect(one?.equals(two as Buffer)).toBe(true);
    }
  });

  it.each([
    [['--document', 'card', '--for', 'heron'], 'Heron-card-2026-12-07'],
    [['--document', 'card', '--all', '--date', '2026-12-10'], 'Heron-card-2026-12-10'],
    [['--document', 'floor'], 'Boathouse-floor-2026-12-07'],
    [['--document', 'overview', '--for', 'heron', '--size', 'letter'], 'Heron-overview'],
    [['--for', 'heron', '--large'], 'Heron-plan-large'],
  ])('%s', (args, stem) => {
    const folder = folderWith({ 'winter.stave': WINTER });
    const { status, stderr } = stave(['plan', ...args, '-o', 'out'], { cwd: folder });
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect(written(path.join(folder, 'out'))).toEqual([`${stem}.html`, `${stem}.pdf`]);
  });

  it.each([
    [['--document', 'card', '--for', 'heron', '--to', 'ics'], 'A card can be written as html or pdf'],
    [
      ['--document', 'poster', '--for', 'heron'],
      '--document cannot be "poster". It can be plan, card, floor, overview, review, years, roster.',
    ],
    [['--size', 'a3', '--for', 'heron'], '--size cannot be "a3". It can be a4, letter.'],
    [['--all', '--for', 'heron'], '--all writes every client'],
    [['--document', 'card'], '--for is missing'],
    [['--document', 'roster', '--for', 'heron'], 'A roster is of every client'],
    [['--document', 'review', '--for', 'heron', '--to', 'md'], 'A review can be written as html or pdf'],
    [['--document', 'floor', '--date', '2030-01-01'], 'Nobody has sessions in these dates'],
    [['--document', 'card', '--for', 'heron', '--date', 'soon'], '--date takes a date'],
  ])('refuses %s', (args, words) => {
    const folder = folderWith({ 'winter.stave': WINTER });
    const { status, stderr } = stave(['plan', ...args, '-o', 'out'], { cwd: folder });
    expect(status).toBe(2);
    expect(stderr).toContain(words);
    expect(fs.existsSync(path.join(folder, 'out'))).toBe(false);
  });

  it('writes reviews, years and the roster, by name of the document or by their own command', () => {
    const folder = folderWith({ 'winter.stave': WINTER });
    for (const document of ['review', 'years'])
      expect(
        stave(['plan', '--for', 'heron', '--document', document, '-o', 'out'], { cwd: folder }).status,
      ).toBe(0);
    expect(stave(['plan', '--document', 'roster', '-o', 'out'], { cwd: folder }).status).toBe(0);
    const own = ['--today', '2026-12-20', '--to', 'html,pdf', '-o', 'own'];
    expect(stave(['review', '--for', 'heron', ...own], { cwd: folder }).status).toBe(0);
    expect(stave(['roster', ...own], { cwd: folder }).stdout).toContain('own/roster-2026-12-20.pdf');
    expect(written(path.join(folder, 'own'))).toEqual([
      'Heron-review.html',
      'Heron-review.pdf',
      'roster-2026-12-20.html',
      'roster-2026-12-20.pdf',
    ]);
    const roster = fs.readFileSync(path.join(folder, 'own', 'roster-2026-12-20.html'), 'utf8');
    expect(roster).toContain('winter.stave:');
    expect(written(path.join(folder, 'out'))).toHaveLength(6);
  });

  it('gives every client a file in the folder, whatever she is called', () => {
    const files = HOSTILE_NAMES.map((name, index) => [`${index}.stave`, hostileWorkspace(name)] as const);
    const folder = folderWith(Object.fromEntries(files));
    const { status, stdout } = stave(['plan', '--all', '--to', 'csv,ics', '-o', 'out'], { cwd: folder });
    expect(status).toBe(0);
    expect(stdout.trim().split('\n')).toHaveLength(2 * HOSTILE_NAMES.length);
    expect(written(path.join(folder, 'out'))).toHaveLength(2 * HOSTILE_NAMES.length);
    expect(written(folder)).toEqual([...files.map(([name]) => name), 'out'].sort());
  });

  it('leaves the old file whole where a new one cannot be written', () => {
    const folder = folderWith({
      'winter.stave': WINTER,
      'out/Heron-plan.csv/kept': 'in the way',
      'out/Heron-plan.json': 'old',
    });
    const { status, stderr } = stave(['plan', '--for', 'heron', '--to', 'csv,json', '-o', 'out'], {
      cwd: folder,
    });
    expect(status).toBe(2);
    expect(stderr).toContain('cannot be written');
    expect(fs.readFileSync(path.join(folder, 'out/Heron-plan.json'), 'utf8')).toBe('old');
    expect(written(path.join(folder, 'out'))).toEqual(['Heron-plan.csv', 'Heron-plan.json']);
  });

  it.each(['de', 'es'])('writes documents in %s, and speaks English itself', (language) => {
    const words =
      { de: ['Plan für Heron', 'Seite 1 von'], es: ['Plan de Heron', 'página 1 de'] }[language] ?? [];
    // More documents than are drawn in one thread: each thread has to know the language.
    const names = ['Heron', 'Avocet', 'Bittern', 'Curlew', 'Dunlin', 'Egret', 'Fulmar'];
    const files = names.map((name) => [
      `${name}.stave`,
      WINTER.replaceAll('Heron', name)
        .replaceAll('Boathouse', `${name} hall`)
        .replaceAll('Harbour winter', name),
    ]);
    const folder = folderWith(Object.fromEntries(files));
    const asked = ['--language', language, '-o', 'out', '--to', 'html,pdf,ics'];
    const { status, stdout, stderr } = stave(['plan', '--all', ...asked], { cwd: folder });
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect(stdout).toContain('out/Heron-plan.html');
    const html = fs.readFileSync(path.join(folder, 'out/Heron-plan.html'), 'utf8');
    expect(html).toContain(`<html lang="${language}">`);
    expect(html).toContain(words[0]);
    for (const name of names) {
      const file = path.join(folder, 'out', `${name}-plan.pdf`);
      expect(execFileSync('pdftotext', [file, '-'], { encoding: 'utf8' })).toContain(words[1]);
    }
    const wrong = stave(['plan', '--for', 'heron', '--language', 'fr'], { cwd: folder });
    expect(wrong.status).toBe(2);
    expect(wrong.stderr).toContain('--language cannot be "fr". It can be en, de, es.');
  });

  it('counts on the cover the mistakes that the plan rests on, and no others', () => {
    const other = WINTER.replaceAll('Heron', 'Godwit')
      .replaceAll('Boathouse', 'Shed')
      .replaceAll('Harbour winter', 'Shed winter');
    const folder = folderWith({
      'heron.stave': WINTER,
      'godwit.stave': other.replace('trains at: Shed', 'trains at: Shd'),
    });
    const { stderr } = stave(['plan', '--all', '--to', 'html', '-o', 'out'], { cwd: folder });
    expect(stderr).toContain('the files have 1 error');
    const cover = (name: string) => fs.readFileSync(path.join(folder, `out/${name}-plan.html`), 'utf8');
    expect(cover('Heron')).not.toContain('The files of this plan have');
    expect(cover('Godwit')).toContain('The files of this plan have 1 mistake.');
  });

  it('says which letters the PDF lacks', () => {
    const folder = folderWith({ 'one.stave': hostileWorkspace('Robin 🦆') });
    const { status, stderr } = stave(['plan', '--all', '--document', 'card', '-o', 'out'], { cwd: folder });
    expect(status).toBe(0);
    expect(stderr).toContain('U+1F986');
  });
});

describe('stave watch', () => {
  it('builds, then builds again what has changed and nothing else', async () => {
    const other = WINTER.replaceAll('Heron', 'Godwit')
      .replaceAll('Boathouse', 'Shed')
      .replaceAll('Harbour winter', 'Shed winter');
    const folder = folderWith({ 'heron.stave': WINTER, 'godwit.stave': other });
    const child = spawn(process.execPath, [program, 'watch', '--all', '--to', 'csv', '-o', 'out'], {
      cwd: folder,
      env: { ...process.env, SOURCE_DATE_EPOCH: '1795608000' },
    });
    let said = '';
    child.stderr.on('data', (chunk: Buffer) => {
      said += chunk.toString();
    });
    const until = async (words: string): Promise<void> => {
      for (let tries = 0; tries < 300 && !said.includes(words); tries += 1)
        await new Promise((resolve) => setTimeout(resolve, 100));
      expect(said).toContain(words);
    };
    try {
      await until('2 documents written, 0 as before.');
      fs.writeFileSync(path.join(folder, 'heron.stave'), WINTER.replace('47.5kg x5 r2', '60kg x5 r2'));
      await until('1 document written, 1 as before.');
      expect(fs.readFileSync(path.join(folder, 'out/Heron-plan.csv'), 'utf8')).toMatch(/,Back squat,/i);
      expect(fs.readFileSync(path.join(folder, 'out/Heron-plan.csv'), 'utf8')).not.toContain(',45,10 + 5,');
      // What cannot be written leaves the old file whole, and is written when it can be.
      const target = path.join(folder, 'out/Heron-plan.csv');
      const before = fs.readFileSync(target, 'utf8');
      const untouched = fs.statSync(path.join(folder, 'out/Godwit-plan.csv'));
      fs.renameSync(target, path.join(folder, 'kept.csv'));
      fs.mkdirSync(path.join(target, 'in the way'), { recursive: true });
      fs.writeFileSync(path.join(folder, 'heron.stave'), WINTER.replace('47.5kg x5 r2', '70kg x5 r2'));
      await until('cannot be written');
      expect(fs.readFileSync(path.join(folder, 'kept.csv'), 'utf8')).toBe(before);
      fs.rmSync(target, { recursive: true });
      fs.renameSync(path.join(folder, 'kept.csv'), target);
      said = '';
      fs.writeFileSync(path.join(folder, 'heron.stave'), WINTER.replace('47.5kg x5 r2', '75kg x5 r2'));
      await until('1 document written, 1 as before.');
      expect(fs.readFileSync(target, 'utf8')).not.toBe(before);
      expect(written(path.join(folder, 'out'))).toEqual(['Godwit-plan.csv', 'Heron-plan.csv']);
      const after = fs.statSync(path.join(folder, 'out/Godwit-plan.csv'));
      expect([after.mtimeMs, after.ino]).toEqual([untouched.mtimeMs, untouched.ino]);
    } finally {
      child.kill();
    }
  }, 60_000);
});
