import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { Misuse } from '../../server/src/cli/io.js';
import { LANGUAGES } from '../../server/src/cli/language.js';
import { writeWhole } from '../../server/src/cli/output.js';
import { PLAN_FORMATS } from '../../server/src/cli/plan.js';
import { CHECK_FORMATS, PRINT_FORMATS, PRINT_LANGUAGES } from '../../server/src/cli/program.js';
import { FORMATS } from '../../server/src/cli/reports.js';
import { ensureBuilt, folderWith, program, stave, WINTER } from './run.js';

beforeAll(ensureBuilt, 120_000);

const winter = () => folderWith({ 'winter.stave': WINTER });

describe('misuse', () => {
  it.each([
    [['chekc'], 'There is no command "chekc". Did you mean "check"?'],
    [['check', 'nowhere'], 'There is no file or folder "nowhere".'],
    [['check', 'nowhere.stave'], 'There is no file or folder "nowhere.stave".'],
    [['check', '--formta', 'json'], 'There is no option "--formta" here. Did you mean "--format"?'],
    [['check', '--format', 'xml'], '--format cannot be "xml". It can be text, concise, json, github, sarif.'],
    [['check', '--format'], '--format needs a value after it.'],
    [['loads'], '--for is missing.'],
    [['loads', '--for', 'Hreon'], 'No client is called "Hreon". Did you mean "Heron"?'],
    [['loads', '--for', 'Cormorant'], 'No client is called "Cormorant". There is: Heron.'],
    [['plan', '--for', 'Heron', '--to', 'docx'], '--to takes html or pdf'],
    [
      ['plan', '--for', 'Heron', '--from', '2026-02-30'],
      '--from takes a date such as 2026-12-07; "2026-02-30" is none.',
    ],
    [
      ['plan', '--for', 'Heron', '--from', '2030-01-01'],
      'Heron has no sessions in these dates: nothing was written.',
    ],
    [['explain', 'heavy-erly'], 'No finding has the code "heavy-erly". Did you mean heavy-early?'],
    [['init'], 'The dir is missing.'],
    [['init', 'a', 'b'], 'There are more words than this command takes.'],
    [['lsp'], '--stdio is missing.'],
    [['format', '-', 'winter.stave'], '`-` (standard input) stands alone.'],
  ])('%j: one clear line, exit 2', (args, message) => {
    const cwd = winter();
    const before = fs.readdirSync(cwd);
    const { status, stdout, stderr } = stave(args, { cwd });
    expect(stderr).toContain(`stave: ${message}`);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(stdout).toBe('');
    expect(status).toBe(2);
    expect(fs.readdirSync(cwd)).toEqual(before);
  });

  it('an empty folder', () => {
    expect(stave(['check'], { cwd: folderWith({}) })).toMatchObject({
      status: 2,
      stderr: 'stave: There are no .stave files in ".".\n',
    });
  });

  it('a file that cannot be read, or is no text', () => {
    const cwd = winter();
    fs.symlinkSync('gone', path.join(cwd, 'dangling.stave'));
    expect(stave(['check'], { cwd })).toMatchObject({
      status: 2,
      stderr: 'stave: "dangling.stave" cannot be read: it is not there.\n',
    });
    fs.rmSync(path.join(cwd, 'dangling.stave'));
    fs.writeFileSync(path.join(cwd, 'latin.stave'), Buffer.from([0x6b, 0x69, 0x74, 0x20, 0xe9, 0x0a]));
    expect(stave(['check'], { cwd }).stderr).toBe(
      'stave: "latin.stave" is not text in UTF-8. Save it as UTF-8 and try again.\n',
    );
  });

  it('no command: the help, on standard error', () => {
    const { status, stdout, stderr } = stave([]);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toContain('Usage: stave');
    expect(stave(['--help'])).toMatchObject({ status: 0, stderr: '' });
    expect(stave(['help', 'check']).stdout).toContain('--format');
  });

  it('a place that is no folder', () => {
    const cwd = winter();
    const { status, stderr } = stave(['plan', '--for', 'Heron', '--to', 'html', '-o', 'winter.stave/out'], {
      cwd,
    });
    expect(status).toBe(2);
    expect(stderr).toBe(
      'stave: The folder "winter.stave/out" cannot be made: a part of the path is a file, not a folder.\n',
    );
  });

  it('a reader that leaves early is no mistake', () => {
    const { status, stderr } = spawnSync(
      'bash',
      [
        '-c',
        `set -o pipefail; "${process.execPath}" "${program}" loads samples/boathouse --for Dunlin | head -1`,
      ],
      { encoding: 'utf8' },
    );
    expect(stderr).toBe('');
    expect(status).toBe(0);
  });

  it('the formats of the help are those of the reports', () => {
    expect(CHECK_FORMATS).toEqual(FORMATS);
    expect(PRINT_FORMATS).toEqual(PLAN_FORMATS);
    expect(PRINT_LANGUAGES).toEqual(LANGUAGES);
  });
});

describe('writing', () => {
  const failing = (code: string, at: 'write' | 'rename') => {
    const error = Object.assign(new Error(code), { code });
    let writes = 0;
    return {
      async writeFile(file: string, content: string | Uint8Array) {
        writes += 1;
        // The second file fails half-way, as on a disk that fills up.
        fs.writeFileSync(file, writes === 2 && at === 'write' ? String(content).slice(0, 3) : content);
        if (writes === 2 && at === 'write') throw error;
      },
      async rename(from: string, to: string) {
        if (at === 'rename') throw error;
        fs.renameSync(from, to);
      },
      async remove(file: string) {
        fs.rmSync(file, { force: true });
      },
    };
  };

  it.each([
    ['ENOSPC', 'write', 'the disk is full'],
    ['EROFS', 'write', 'this disk can only be read'],
    ['EACCES', 'rename', 'you are not allowed to'],
  ] as const)('%s at the %s leaves what was there', async (code, at, words) => {
    const folder = folderWith({ 'a.html': 'old a', 'b.pdf': 'old b' });
    const files = [
      { path: path.join(folder, 'a.html'), content: 'new a' },
      { path: path.join(folder, 'b.pdf'), content: 'new b' },
    ];
    const failed = await writeWhole(files, failing(code, at)).catch((error: unknown) => error);
    expect(failed).toBeInstanceOf(Misuse);
    expect(String(failed)).toContain(words);
    expect(fs.readdirSync(folder).sort()).toEqual(['a.html', 'b.pdf']);
    expect(fs.readFileSync(path.join(folder, 'a.html'), 'utf8')).toBe('old a');
    expect(fs.readFileSync(path.join(folder, 'b.pdf'), 'utf8')).toBe('old b');
  });

  it('a real limit on the size of a file', () => {
    const cwd = winter();
    fs.mkdirSync(path.join(cwd, 'out'));
    fs.writeFileSync(path.join(cwd, 'out/Heron-plan.html'), 'old');
    // Two kilobytes at most for every file that is written; the signal that comes with it is ignored.
    const command = `trap '' XFSZ; ulimit -f 2; exec "${process.execPath}" "${program}" plan --for Heron --to html -o out`;
    const { status, stderr } = spawnSync('bash', ['-c', command], { cwd, encoding: 'utf8' });
    expect(stderr).toBe(
      'stave: "' +
        path.join(cwd, 'out/Heron-plan.html') +
        '" cannot be written: the file would be larger than is allowed here.\n',
    );
    expect(status).toBe(2);
    expect(fs.readdirSync(path.join(cwd, 'out'))).toEqual(['Heron-plan.html']);
    expect(fs.readFileSync(path.join(cwd, 'out/Heron-plan.html'), 'utf8')).toBe('old');
  });
});
