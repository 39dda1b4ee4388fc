import fs from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { createSession } from '../../server/src/engine/session.js';
import { root } from '../structure/repository.js';
import { ensureBuilt, folderWith, stave, WINTER } from './run.js';

beforeAll(ensureBuilt, 120_000);

const BROKEN = WINTER.replace('3x6 r2', '3x6 r2 r3').replace('max: back squat', 'max: back sqat');
const CLEAN = 'kit Shed\n  bar: 15kg\n  plates: 5kg x2\n';

/** Line and column, counted from 1 the slow way. */
function place(text: string, offset: number): { line: number; column: number } {
  const before = text.slice(0, offset).split('\n');
  return { line: before.length, column: (before.at(-1) ?? '').length + 1 };
}

describe('stave check', () => {
  it.each(['samples/boathouse', 'samples/winter'])('finds in %s what the engine finds', (folder) => {
    const session = createSession({ today: '2026-11-25' });
    const files = fs
      .readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.stave'));
    for (const file of files)
      session.setFile(`${folder}/${file}`, fs.readFileSync(path.join(root, folder, file), 'utf8'));
    const expected = files
      .map((file) => `${folder}/${file}`)
      .sort()
      .flatMap((file) =>
        session.findings(file).map(({ code, severity, message, place: { span } }) => ({
          code,
          severity,
          message,
          file,
          ...place(session.text(file) ?? '', span.start),
        })),
      );
    const { findings } = JSON.parse(stave(['check', folder, '--format', 'json']).stdout);
    expect(findings.length).toBeGreaterThan(0);
    expect(
      findings.map(({ code, severity, message, file, line, column }: Record<string, unknown>) => ({
        code,
        severity,
        message,
        file,
        line,
        column,
      })),
    ).toEqual(expected);
  });

  it('gives 0 for nothing, 1 for a warning or an error', () => {
    expect(stave(['check'], { cwd: folderWith({ 'kit.stave': CLEAN }) })).toMatchObject({
      status: 0,
      stdout: 'Nothing found in 1 file.\n',
      stderr: '',
    });
    expect(stave(['check', 'samples/winter']).status).toBe(1);
    expect(stave(['check'], { cwd: folderWith({ 'a.stave': BROKEN }) }).status).toBe(1);
  });

  it('writes a line a finding in the concise form', () => {
    const { stdout } = stave(['check', '--format', 'concise'], { cwd: folderWith({ 'a.stave': BROKEN }) });
    const lines = stdout.trimEnd().split('\n');
    expect(lines.length).toBeGreaterThan(1);
    for (const line of lines) expect(line).toMatch(/^a\.stave:\d+:\d+: (error|warning|info|hint) [a-z-]+ \S/);
    expect(stdout).toContain(`a.stave:12:8: error unknown-name `);
  });

  it('writes text of at most 80 columns without colour where nobody looks', () => {
    const { stdout } = stave(['check', 'samples/boathouse']);
    for (const line of stdout.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
    expect(stdout).not.toContain('\u001b');
    expect(stdout).toMatch(/\d+ warnings?, .* in 1\d files\./);
  });

  it('writes commands for GitHub with what they take as markup escaped', () => {
    const { stdout } = stave(['check', '--format', 'github'], { cwd: folderWith({ 'a,b.stave': BROKEN }) });
    expect(stdout).toMatch(
      /^::error file=a%2Cb\.stave,line=\d+,endLine=\d+,col=\d+,endColumn=\d+,title=[a-z-]+::/m,
    );
    for (const line of stdout.trimEnd().split('\n')) expect(line).toMatch(/^::(error|warning|notice) /);
  });

  it('writes SARIF 2.1.0', () => {
    const { stdout } = stave(['check', '--format', 'sarif', 'samples/boathouse']);
    const log = JSON.parse(stdout);
    expect(log.version).toBe('2.1.0');
    const [run] = log.runs;
    const ids = run.tool.driver.rules.map(({ id }: { id: string }) => id);
    expect(run.results.length).toBeGreaterThan(3);
    for (const result of run.results) {
      expect(ids[result.ruleIndex]).toBe(result.ruleId);
      expect(['error', 'warning', 'note']).toContain(result.level);
      const { artifactLocation, region } = result.locations[0].physicalLocation;
      expect(fs.existsSync(path.join(root, decodeURIComponent(artifactLocation.uri)))).toBe(true);
      expect(region.startLine).toBeGreaterThan(0);
      expect(region.startColumn).toBeGreaterThan(0);
    }
  });

  it('reads standard input', () => {
    const { status, stdout } = stave(['check', '-', '--format', 'concise'], { input: BROKEN });
    expect(status).toBe(1);
    expect(stdout).toMatch(/^<stdin>:/);
  });

  it('looks names of a file up in its folder and below, and shows that file alone', () => {
    const [kit, ...rest] = WINTER.split(/(?=^client |^program )/m);
    const cwd = folderWith({
      'kits.stave': kit ?? '',
      'sub/rest.stave': rest.join(''),
      'other/bad.stave': 'kit X\n  bar: zzz\n',
    });
    const alone = stave(['check', 'sub/rest.stave', '--format', 'concise'], { cwd });
    expect(alone.stdout).toContain('unknown-name');
    expect(stave(['check', 'sub/rest.stave'], { cwd }).stdout).toContain('--in FOLDER');
    const wider = stave(['check', 'sub/rest.stave', '--in', '.', '--format', 'concise'], { cwd });
    expect(wider.stdout).not.toContain('unknown-name');
    expect(wider.stdout).not.toContain('bad.stave');
    expect(stave(['check', '.', '--format', 'concise'], { cwd }).stdout).toContain('other/bad.stave');
  });

  it('takes the nearest stave.json above a file, and says what it cannot take', () => {
    const cwd = folderWith({
      'stave.json': '{ "rules": { "stuck": "off" } }',
      'a/winter.stave': WINTER,
      'b/winter.stave': WINTER,
      'b/stave.json': '{ "rules": { "stuck": "error", "stuk": "off" } }',
    });
    expect(stave(['check', 'a', '--format', 'concise'], { cwd }).stdout).not.toContain(' stuck ');
    const nearer = stave(['check', 'b', '--format', 'concise'], { cwd });
    expect(nearer.stdout).toContain(': error stuck ');
    expect(nearer.stderr).toMatch(/^stave: b\/stave\.json: .*"stuk".*\n$/);
  });

  it('works loads out by the numbers of the nearest stave.json', () => {
    // 47.5 kg for twelve with two left: fourteen to failure, of which a set of six takes the lowest curve, or her own.
    const many = WINTER.replace('max: back squat, 47.5kg x5 r2', 'max: back squat, 47.5kg x12 r2');
    expect(many).not.toBe(WINTER);
    const cwd = folderWith({
      'a/winter.stave': many,
      'b/winter.stave': many,
      'b/stave.json': '{ "rules": { "max-imprecise": { "fewReps": 0 } } }',
    });
    const targets = (folder: string) => {
      const { stdout } = stave(['loads', folder, '--for', 'heron', '--json'], { cwd });
      const cells: { movement: string; groups: { targetKg: number | null }[] }[] = JSON.parse(stdout).cells;
      return cells
        .filter(({ movement }) => movement === 'back squat')
        .map(({ groups }) => groups[0]?.targetKg ?? 0);
    };
    const [careful = 0] = targets('a');
    const [own = 0] = targets('b');
    expect(careful).toBeGreaterThan(0);
    expect(own).toBeGreaterThan(careful);
  });

  it('keeps control characters of a file away from the terminal', () => {
    const { stdout } = stave(['check'], {
      cwd: folderWith({ 'a.stave': 'client \u001b[31mRed\n  follows: \u001b]0;x\u0007, from 2026-12-07\n' }),
    });
    expect(stdout).not.toContain('\u001b');
    expect(stdout).toContain('\ufffd');
  });
});

describe('stave check --fix', () => {
  const SLIPPED = WINTER.replace(
    'max: back squat, 47.5kg x5 r2, 2026-11-23',
    'max: back squat, 47.5kg x5 r2, 2026/11/23',
  );
  const MARKED = `\ufeff${SLIPPED.replace(/\n/g, '\r\n')}`;

  it('takes the safe repairs and nothing else, and leaves line ends and the byte order mark', () => {
    const folder = folderWith({ 'a.stave': MARKED });
    const { status, stderr, stdout } = stave(['check', '--fix', '--format', 'concise'], { cwd: folder });
    expect(stderr).toBe('Repaired a.stave.\n');
    expect(stdout).not.toContain('no-such-date');
    // The press that is stuck is still there: its repair changes what the program asks for.
    expect(stdout).toContain('stuck');
    expect(status).toBe(1);
    const now = fs.readFileSync(path.join(folder, 'a.stave'), 'utf8');
    expect(now).toBe(MARKED.replace('2026/11/23', '2026-11-23'));
    expect(stave(['check', '--fix', '--format', 'concise'], { cwd: folder }).stderr).toBe('');
  });

  it('shows them with --diff and writes nothing', () => {
    const folder = folderWith({ 'a.stave': SLIPPED });
    const { status, stdout } = stave(['check', '--fix', '--diff'], { cwd: folder });
    expect(status).toBe(1);
    expect(stdout).toContain('-  max: back squat, 47.5kg x5 r2, 2026/11/23');
    expect(stdout).toContain('+  max: back squat, 47.5kg x5 r2, 2026-11-23');
    expect(fs.readFileSync(path.join(folder, 'a.stave'), 'utf8')).toBe(SLIPPED);
    expect(stave(['check', '--diff'], { cwd: folderWith({ 'a.stave': CLEAN }) })).toMatchObject({
      status: 0,
      stdout: '',
    });
  });

  it('writes no standard input', () => {
    expect(stave(['check', '--fix', '-'], { input: SLIPPED })).toMatchObject({ status: 2, stdout: '' });
    expect(stave(['check', '--diff', '-'], { input: SLIPPED }).stdout).toContain('2026-11-23');
  });
});
