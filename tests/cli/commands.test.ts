import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { explain } from '../../server/src/cli/explain.js';
import type { Io } from '../../server/src/cli/io.js';
import { loadsSchema } from '../../server/src/cli/loadsSchema.js';
import { RULES } from '../../server/src/engine/rules/index.js';
import { createSession } from '../../server/src/engine/session.js';
import { ensureBuilt, folderWith, stave, WINTER } from './run.js';

beforeAll(ensureBuilt, 120_000);

describe('stave loads', () => {
  it('gives the worked example to the digit, in the shape of the schema', () => {
    const { status, stdout } = stave(['loads', 'samples/winter', '--for', 'heron', '--json']);
    expect(status).toBe(0);
    const { cells, findings } = loadsSchema.parse(JSON.parse(stdout));
    const squats = cells
      .filter(({ movement }) => movement === 'back squat')
      .map(({ week, date, line, file, groups: [group] }) => ({
        week,
        date,
        line,
        file,
        group: group && {
          ...group,
          targetKg: group.targetKg?.toFixed(3),
          reserve: group.reserve?.toFixed(2),
          share: group.share?.toFixed(3),
        },
      }));
    const line = WINTER.split('\n').findIndex((text) => /^\s*back squat:/.test(text)) + 1;
    const row = (
      week: number,
      date: string,
      sets: number,
      reps: number,
      targetKg: string,
      loadKg: number,
      eachSideKg: number[],
      reserve: string,
      share: string,
    ) => ({
      week,
      date,
      line,
      file: 'samples/winter/winter.stave',
      group: {
        sets,
        reps,
        seconds: null,
        metres: null,
        targetKg,
        loadKg,
        eachSideKg,
        reserve,
        share,
        provisional: false,
      },
    });
    // The table of the worked example in the language's reference. Shares there are rounded to a tenth of a percent.
    expect(squats).toEqual([
      row(1, '2026-12-07', 3, 6, '45.917', 45, [10, 5], '2.58', '0.789'),
      row(2, '2026-12-14', 4, 6, '45.917', 45, [10, 5], '2.58', '0.789'),
      row(3, '2026-12-21', 4, 5, '47.500', 47.5, [10, 5, 1.25], '2.00', '0.833'),
      row(4, '2026-12-28', 4, 5, '47.500', 47.5, [10, 5, 1.25], '2.00', '0.833'),
      row(5, '2027-01-04', 2, 5, '44.333', 42.5, [10, 2.5, 1.25], '5.16', '0.746'),
    ]);
    expect(findings.map(({ code }) => code)).toContain('stuck');
  });

  it.each(['Avocet', 'Dunlin', 'Plover', 'Wren'])('fits the schema and the width for %s', (client) => {
    const json = stave(['loads', 'samples/boathouse', '--for', client, '--json']);
    const { cells } = loadsSchema.parse(JSON.parse(json.stdout));
    expect(cells.length).toBeGreaterThan(50);
    expect(new Set(cells.map((cell) => cell.client))).toEqual(new Set([client]));
    const { stdout } = stave(['loads', 'samples/boathouse', '--for', client]);
    for (const line of stdout.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
    for (const { movement, date } of cells.slice(0, 30)) {
      expect(stdout).toContain(date);
      expect(stdout).toContain(movement);
    }
  });

  it('a shape of an older or newer version is refused by the schema', () => {
    const { stdout } = stave(['loads', 'samples/winter', '--for', 'heron', '--json']);
    const loads = JSON.parse(stdout);
    expect(loadsSchema.safeParse({ ...loads, version: 2 }).success).toBe(false);
    expect(loadsSchema.safeParse({ ...loads, cells: [{ ...loads.cells[0], line: 0 }] }).success).toBe(false);
  });
});

describe('stave plan', () => {
  it('writes both files, the same every time', () => {
    const cwd = folderWith({ 'winter.stave': WINTER });
    const run = () => {
      const { status, stdout, stderr } = stave(
        ['plan', '--for', 'Heron', '--to', 'html,pdf', '-o', 'out/deep'],
        { cwd },
      );
      expect([status, stdout, stderr]).toEqual([
        0,
        'out/deep/Heron-plan.html\nout/deep/Heron-plan.pdf\n',
        '',
      ]);
      return ['html', 'pdf'].map((ending) =>
        fs.readFileSync(path.join(cwd, `out/deep/Heron-plan.${ending}`)),
      );
    };
    const [first, second] = [run(), run()];
    expect(first[0]?.equals(second[0] as Buffer)).toBe(true);
    expect(first[1]?.equals(second[1] as Buffer)).toBe(true);
    expect(fs.readdirSync(path.join(cwd, 'out/deep')).sort()).toEqual(['Heron-plan.html', 'Heron-plan.pdf']);
    const { stdout } = spawnSync('pdftotext', ['-layout', path.join(cwd, 'out/deep/Heron-plan.pdf'), '-'], {
      encoding: 'utf8',
    });
    expect(stdout).toContain('47.5 kg');
    expect(stdout).toMatch(/each side 10 \+ 5\b/);
    expect(stdout).toMatch(/Heron · Harbour winter · printed 25 November 2026\s+page 6 of 6/);
  });

  it('stays in its folder, whatever the client is called', () => {
    const cwd = folderWith({ 'winter.stave': WINTER.replace('client Heron', 'client ../../<b>Heron') });
    const { status, stdout } = stave(['plan', '--for', '../../<B>heron', '--to', 'html', '-o', 'out'], {
      cwd,
    });
    expect(status).toBe(0);
    expect(stdout).toMatch(/^out\/bHeron-[0-9a-f]{8}-plan\.html\n$/);
    expect(fs.readdirSync(cwd).sort()).toEqual(['out', 'winter.stave']);
    expect(fs.readFileSync(path.join(cwd, stdout.trim()), 'utf8')).not.toContain('<b>Heron');
  });

  it('says that the files have mistakes, and leaves those loads blank', () => {
    const cwd = folderWith({ 'winter.stave': WINTER.replace('3x6 r2', '3x6 r2 r3') });
    const { status, stderr } = stave(['plan', '--for', 'Heron', '--to', 'html'], { cwd });
    expect(status).toBe(0);
    expect(stderr).toMatch(/^stave: the files have \d+ errors?;/);
    expect(fs.readFileSync(path.join(cwd, 'Heron-plan.html'), 'utf8')).toContain(
      'Ask your coach before you train.',
    );
  });
});

describe('stave format', () => {
  const MESSY = WINTER.replace(/ {2,}/g, ' ').replace('3x6 r2', '3X6  R2');

  it('lays out files, once', () => {
    const cwd = folderWith({ 'a.stave': MESSY, 'b.stave': '-- nothing here\n' });
    expect(stave(['format', '--check'], { cwd })).toMatchObject({ status: 1, stdout: 'a.stave\n' });
    const { status, stdout } = stave(['format', '--diff'], { cwd });
    expect(status).toBe(1);
    expect(stdout).toMatch(/^--- a\.stave/m);
    expect(stdout).toMatch(/^\+.*3x6 r2/m);
    expect(fs.readFileSync(path.join(cwd, 'a.stave'), 'utf8')).toBe(MESSY);
    expect(stave(['format'], { cwd })).toMatchObject({ status: 0, stdout: 'a.stave\n' });
    expect(fs.readFileSync(path.join(cwd, 'a.stave'), 'utf8')).toContain('3x6 r2');
    expect(stave(['format', '--check'], { cwd })).toMatchObject({ status: 0, stdout: '' });
    expect(fs.readdirSync(cwd).sort()).toEqual(['a.stave', 'b.stave']);
  });

  it('reads standard input and writes standard output', () => {
    const { status, stdout, stderr } = stave(['format', '-'], { input: MESSY });
    expect([status, stderr]).toEqual([0, '']);
    expect(stave(['format', '-'], { input: stdout }).stdout).toBe(stdout);
    expect(stdout).toContain('3x6 r2');
  });

  it('keeps a byte order mark and the line ends', () => {
    const cwd = folderWith({ 'a.stave': `\ufeff${MESSY.replaceAll('\n', '\r\n')}` });
    expect(stave(['format'], { cwd }).status).toBe(0);
    const text = fs.readFileSync(path.join(cwd, 'a.stave'), 'utf8');
    expect(text.startsWith('\ufeff')).toBe(true);
    expect(text).not.toMatch(/[^\r]\n/);
    expect(stave(['check', '--format', 'concise'], { cwd }).stdout).not.toContain(':1:1: error');
  });

  it('leaves the samples as they are', () => {
    expect(stave(['format', '--check', 'samples/boathouse', 'seeds'])).toMatchObject({
      status: 0,
      stdout: '',
    });
  });
});

describe('stave explain', () => {
  it.each(RULES.map(({ code }) => code))('%s', (code) => {
    let text = '';
    const io = { out: (part: string) => (text += part), width: 80 } as unknown as Io;
    expect(explain(code, io)).toBe(0);
    expect(text).toContain('Why it matters');
    expect(text).toContain('Source');
    // Examples are notation: they stand as they are written.
    const prose = text.split('\n').filter((line) => !line.startsWith('    '));
    for (const line of prose) expect([...line].length).toBeLessThanOrEqual(80);
  });

  it('lists everything', () => {
    expect(stave(['explain', 'heavy-early'])).toMatchObject({ status: 0, stderr: '' });
    const { stdout } = stave(['explain']);
    for (const { code } of RULES) expect(stdout).toContain(code);
    expect(stdout).toContain('decimal-comma');
    expect(stave(['explain', 'decimal-comma']).stdout).toContain('2.5kg');
  });
});

describe('stave init', () => {
  it('lays out a folder without errors, whose client has sessions', () => {
    const cwd = folderWith({});
    const { status, stdout } = stave(['init', 'work'], { cwd });
    expect([status, stdout]).toEqual([0, 'work/kits.stave\nwork/programs.stave\nwork/clients.stave\n']);
    const { findings } = JSON.parse(stave(['check', 'work', '--format', 'json'], { cwd }).stdout);
    expect(
      findings.filter(({ severity }: { severity: string }) => severity === 'error' || severity === 'warning'),
    ).toEqual([]);
    const session = createSession();
    for (const file of fs.readdirSync(path.join(cwd, 'work')))
      session.setFile(file, fs.readFileSync(path.join(cwd, 'work', file), 'utf8'));
    // The Monday after 25 November 2026, a Wednesday.
    expect(session.plan('dipper')?.sessions[0]?.date).toBe('2026-11-30');
    expect(stave(['format', '--check', 'work'], { cwd }).status).toBe(0);
  });

  it('lays out the first client with a program made for her, and one warning that is meant', () => {
    const cwd = folderWith({});
    const about = ['--client', 'Heron', '--born', '1968', '--kit', 'community studio', '--on', 'tue fri'];
    const sets = ['--set', 'back squat 40kg 8 r2', 'leg press 60kg 10 r3', '--signed-off', 'squat'];
    const { status, stdout } = stave(['init', 'work', ...about, ...sets], { cwd });
    const files = ['clients/heron.stave', 'kits.stave', 'programs/first-weeks.stave'];
    expect([status, stdout]).toEqual([0, files.map((file) => `work/${file}\n`).join('')]);
    const checked = stave(['check', 'work', '--format', 'json'], { cwd });
    expect(checked.status).toBe(1);
    const { findings } = JSON.parse(checked.stdout);
    expect(findings.map(({ code }: { code: string }) => code)).toEqual(['failure-early']);
    const loads = stave(['loads', 'work', '--for', 'Heron'], { cwd }).stdout;
    expect(loads).toMatch(/2026-12-01 One, Community studio[\s\S]*back squat +2x10 r5 += 32\.5 kg/);
    expect(stave(['format', '--check', 'work'], { cwd }).status).toBe(0);
  });

  it.each([
    [['--client', 'a: b'], '"a: b" cannot be a name.'],
    [['--client', 'Heron', '--born', '68'], '"68" is no year.'],
    [
      ['--client', 'Heron', '--kit', 'Attic'],
      'There is no kit "Attic" to start from. There are: Home corner,',
    ],
    [['--client', 'Heron', '--set', 'bak squat 40kg 8'], 'Did you mean "back squat"?'],
    [['--client', 'Heron', '--signed-off', 'squats'], '"squats" is no pattern. There are: squat, hinge,'],
    [['--client', 'Heron', '--on', 'monday'], '--on takes weekdays such as mon,thu; found "monday".'],
  ])('writes nothing with %j', (args, why) => {
    const cwd = folderWith({});
    const { status, stderr } = stave(['init', 'work', ...args], { cwd });
    expect(status).toBe(2);
    expect(stderr.replace(/\s+/g, ' ')).toContain(why);
    expect(fs.existsSync(path.join(cwd, 'work'))).toBe(false);
  });

  it('never writes over what is there', () => {
    const cwd = folderWith({ 'work/programs.stave': '-- mine\n' });
    const { status, stderr } = stave(['init', 'work'], { cwd });
    expect([status, stderr]).toEqual([
      2,
      'stave: "work/programs.stave" is there already: nothing was written.\n',
    ]);
    expect(fs.readdirSync(path.join(cwd, 'work'))).toEqual(['programs.stave']);
  });
});
