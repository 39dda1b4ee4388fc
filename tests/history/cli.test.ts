import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { runProgram } from '../../server/src/cli/program.js';
import { folderWith } from '../cli/run.js';
import { root } from '../structure/repository.js';
import { SMALL } from '../views/workspace.js';

interface Ran {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** The command line over the sources, on 25 November 2026. */
async function stave(cwd: string, ...args: string[]): Promise<Ran> {
  let stdout = '';
  let stderr = '';
  const status = await runProgram(args, {
    io: {
      cwd,
      today: '2026-11-25',
      madeAtSeconds: 1795608000,
      colour: false,
      width: 100,
      out: (text) => {
        stdout += text;
      },
      err: (text) => {
        stderr += text;
      },
      readStdin: async () => Buffer.alloc(0),
    },
    version: '0',
    commands: () => import('../../server/src/cli/commands.js'),
    startServer: async () => undefined,
  });
  return { status, stdout, stderr };
}

const BOATHOUSE = path.join(root, 'samples/boathouse');

const LOGS = `log Heron, 2026-12-07, Lower
  as planned
  back squat: 52.5kg 6 6 6 r2 ; 42.5kg 6 6
  session: rpe 7, 52min
log Heron, 2026-12-10, Lower
  back squat: 52.5kg 6 6 6 r2
  pain: knee 4/10
`;

describe('stave review', () => {
  it('shows plan against done, strength and offers as text', async () => {
    const { status, stdout } = await stave(
      folderWith({ ...SMALL, 'log.stave': LOGS }),
      'review',
      '--for',
      'heron',
      '--today',
      '2026-12-12',
    );
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Heron, 2026-12-12\n/);
    // 6 + 2 to failure, Brzycki: 52.5 × 36/29 = 65.2 against 57 of the plan.
    expect(stdout).toContain('max: back squat, 52.5kg x6 r2, 2026-12-10');
    expect(stdout).toMatch(/back squat: 65\.2 kg/);
    expect(stdout).toMatch(/52\.5 kg: 6 6 6, 2 in reserve/);
    for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
  });

  it('offers a sign-off by the criteria of stave.json beside the files, in the roster too', async () => {
    const files = {
      ...SMALL,
      'clients.stave': SMALL['clients.stave']?.replaceAll('heavy all', 'load all') ?? '',
      'log.stave': LOGS.replace('  pain: knee 4/10\n', ''),
    };
    const settings = '{ "signOff": { "heavy": { "sessions": 1, "weeks": 0 } } }';
    const offers = async (own: Record<string, string>, command: string) =>
      (await stave(folderWith(own), ...command.split(' '), '--today', '2026-12-12')).stdout;
    expect(await offers(files, 'review --for heron')).not.toContain('sign off heavy for push');
    const set = { ...files, 'stave.json': settings };
    expect(await offers(set, 'review --for heron')).toContain('sign off heavy for push');
    expect(await offers(set, 'roster')).toContain('sign off heavy');
  });

  it('writes JSON with the same numbers and the places', async () => {
    const { stdout } = await stave(
      folderWith({ ...SMALL, 'log.stave': LOGS }),
      'review',
      '--for',
      'Heron',
      '--format',
      'json',
      '--today',
      '2026-12-12',
    );
    const json = JSON.parse(stdout);
    expect(json).toMatchObject({ version: 1, client: 'Heron', today: '2026-12-12' });
    expect(json.offers.find(({ kind }: { kind: string }) => kind === 'max')).toMatchObject({
      line: 'max: back squat, 52.5kg x6 r2, 2026-12-10',
      under: { file: 'clients.stave', line: 4 },
    });
    expect(
      json.movements.find(({ movement }: { movement: string }) => movement === 'back squat'),
    ).toMatchObject({ planKg: 57, supports: 'more' });
    expect(json.sessions[0]).toMatchObject({
      date: '2026-12-07',
      state: 'done',
      done: { minutes: 52 },
      rpe: 7,
    });
  });

  it('writes HTML that loads nothing from outside and cannot be broken by a name', async () => {
    const files: Record<string, string> = {
      ...SMALL,
      'log.stave': LOGS.replace('as planned', 'as planned\n  note: "<script>alert(1)</script>"'),
    };
    const hostile = {
      ...files,
      'clients.stave': files['clients.stave']?.replaceAll('Wren', 'Wren <b>') ?? '',
    };
    const { stdout } = await stave(
      folderWith(hostile),
      'review',
      '--for',
      'Heron',
      '--format',
      'html',
      '--today',
      '2026-12-12',
    );
    expect(stdout).toMatch(/^<!doctype html>/);
    expect(stdout).not.toMatch(/<script|https?:\/\/|src=|Wren/);
    expect(stdout).toContain('<svg');
    expect(stdout).toContain('max: back squat, 52.5kg x6 r2, 2026-12-10');
  });

  it('reads the sample, and says what it takes', async () => {
    expect((await stave(BOATHOUSE, 'review', '--for', 'Plover')).status).toBe(0);
    const wrong = await stave(BOATHOUSE, 'review', '--for', 'Plovr');
    expect(wrong).toMatchObject({ status: 2, stderr: expect.stringContaining('Did you mean "Plover"?') });
    expect((await stave(BOATHOUSE, 'review', '--for', 'Plover', '--today', '2026-02-30')).stderr).toContain(
      'takes a date',
    );
    expect((await stave(BOATHOUSE, 'review', '--for', 'Plover', '--format', 'xml')).stderr).toContain(
      'text, json, html',
    );
  });
});

describe('stave roster', () => {
  it('has one line a client, the most urgent first, each need with its line', async () => {
    const { status, stdout } = await stave(
      folderWith({ ...SMALL, 'log.stave': LOGS }),
      'roster',
      '--today',
      '2026-12-12',
    );
    expect(status).toBe(0);
    const lines = stdout.trimEnd().split('\n');
    expect(lines.map((line) => line.split(' | ')[0])).toEqual(['Heron', 'Wren']);
    expect(lines[0]).toContain('Winter · Keel, week 1 of 3 | 2026-12-14 Lower: back squat 4 × 6 at 45 kg');
    expect(lines[0]).toMatch(/pain 4\/10 in knee on 2026-12-10: hold, easier movement \(log\.stave:7\)/);
    expect(lines[1]).toMatch(/max of back squat is 14 weeks old \(clients\.stave:11\)/);
  });

  it('tells what needs a decision in the sample as JSON', async () => {
    const { stdout } = await stave(BOATHOUSE, 'roster', '--format', 'json');
    const { clients } = JSON.parse(stdout);
    expect(clients.map(({ client }: { client: string }) => client).sort()).toEqual([
      'Avocet',
      'Dunlin',
      'Plover',
      'Wren',
    ]);
    const avocet = clients.find(({ client }: { client: string }) => client === 'Avocet');
    expect(avocet.needs.map(({ kind }: { kind: string }) => kind)).toEqual(['program-ends', 'deload']);
  });

  it('knows missed sessions, screening and the end of a program', async () => {
    const client = `client Heron\n  screened: 2025-01-01\n  follows: Winter, from 2026-12-07, on mon thu\n`;
    const files = {
      'a.stave': `${client}\nprogram Winter\n\nblock Keel, 3 weeks\nday Lower\n  push-up: 3x8\n\nlog Heron, 2026-12-07, Lower\n  as planned\n`,
    };
    const kinds = async (today: string) => {
      const { stdout } = await stave(folderWith(files), 'roster', '--format', 'json', '--today', today);
      return JSON.parse(stdout).clients[0].needs.map(({ kind }: { kind: string }) => kind);
    };
    expect(await kinds('2026-12-08')).toEqual(['screening']);
    expect(await kinds('2026-12-15')).toEqual(['missed', 'screening', 'program-ends']);
    expect(await kinds('2027-02-15')).toEqual(['screening', 'no-program']);
  });
});

const HEADER = 'date,client,movement,reps,load,unit,reserve\n';

describe('stave log import', () => {
  const run = (table: string, ...more: string[]) => {
    const folder = folderWith({ ...SMALL, 'sets.csv': table });
    return {
      folder,
      ran: stave(
        folder,
        'log',
        'import',
        'sets.csv',
        '--into',
        'logs/2026.stave',
        '--today',
        '2026-12-20',
        ...more,
      ),
    };
  };

  it('writes logs in the notation, kilograms and pounds as they were', async () => {
    const { folder, ran } = run(
      `${HEADER}2026-12-10,Heron,back squat,6,45,kg,\n2026-12-10,Heron,back squat,5,45,kg,1\n2026-12-10,Heron,back squat,8,40,kg,\n2026-12-07,wren,back squat,5,135,lb,2\n2026-12-07,wren,push-up,9,,,\n`,
    );
    expect(await ran).toMatchObject({ status: 0, stdout: 'logs/2026.stave: 5 sets of 2 sessions\n' });
    expect(fs.readFileSync(path.join(folder, 'logs/2026.stave'), 'utf8')).toBe(
      'log Wren, 2026-12-07\n  back squat: 135lb 5 r2\n  push-up: bw 9\n\nlog Heron, 2026-12-10\n  back squat: 45kg 6 5 r1 ; 40kg 8\n',
    );
  });

  it('writes a swap of the day as one', async () => {
    const { folder, ran } = run(
      'date,client,movement,instead of,reps,load,unit,reserve\n2026-12-10,Heron,box squat,Back squat,8,40,kg,\n2026-12-10,Heron,box squat,back squat,8,40,kg,3\n2026-12-10,Heron,push-up,,9,,,\n',
    );
    expect(await ran).toMatchObject({ status: 0 });
    expect(fs.readFileSync(path.join(folder, 'logs/2026.stave'), 'utf8')).toBe(
      'log Heron, 2026-12-10\n  swap: back squat, to box squat, 40kg 8 8 r3\n  push-up: bw 9\n',
    );
    const wrong = run(
      'date,client,movement,instead of,reps,load,unit\n2026-12-10,Heron,box squat,back sqat,8,40,kg\n',
    );
    expect((await wrong.ran).stderr).toMatch(
      /row 2: no movement is called "back sqat"; did you mean "back squat"\?/,
    );
  });

  it('adds to a file that is there and leaves what stands in it', async () => {
    const { folder, ran } = run(`${HEADER}2026-12-10,Heron,back squat,6,45,kg,\n`);
    await ran;
    fs.writeFileSync(path.join(folder, 'more.csv'), `${HEADER}2026-12-14,Heron,back squat,6,45,kg,\n`);
    expect(
      (await stave(folder, 'log', 'import', 'more.csv', '--into', 'logs/2026.stave', '--today', '2026-12-20'))
        .status,
    ).toBe(0);
    expect(fs.readFileSync(path.join(folder, 'logs/2026.stave'), 'utf8')).toBe(
      'log Heron, 2026-12-10\n  back squat: 45kg 6\n\nlog Heron, 2026-12-14\n  back squat: 45kg 6\n',
    );
    // The same table again is refused: those days have their log.
    const again = await stave(
      folder,
      'log',
      'import',
      'more.csv',
      '--into',
      'logs/2026.stave',
      '--today',
      '2026-12-20',
    );
    expect(again).toMatchObject({
      status: 1,
      stderr: expect.stringContaining('row 2: Heron has a log of 2026-12-14 already.'),
    });
  });

  it.each([
    ['10.12.2026,Heron,back squat,5,45,kg,', /the date is "10\.12\.2026"/],
    ['2026-02-30,Heron,back squat,5,45,kg,', /the date is "2026-02-30"/],
    ['2026-12-21,Heron,back squat,5,45,kg,', /lies ahead/],
    ['2026-12-10,Heronn,back squat,5,45,kg,', /no client is called "Heronn"; did you mean "Heron"\?/],
    ['2026-12-10,Heron,bak squat,5,45,kg,', /did you mean "back squat"\?/],
    ['2026-12-10,Heron,back squat,5,"42,5",kg,', /write 42\.5 with a point/],
    ['2026-12-10,Heron,back squat,5,45,st,', /it is kg or lb/],
    ['2026-12-10,Heron,back squat,5,45,,', /it is kg or lb/],
    ['2026-12-10,Heron,back squat,5,,kg,', /the load of back squat is missing/],
    ['2026-12-10,Heron,back squat,5.5,45,kg,', /repetitions are whole/],
    ['2026-12-10,Heron,back squat,500,45,kg,', /between 0 and 199/],
    ['2026-12-10,Heron,back squat,,45,kg,', /one of reps, seconds and metres/],
    ['2026-12-10,Heron,back squat,5,4500,kg,', /cannot be/],
    ['2026-12-10,Heron,back squat,5,-45,kg,', /more than 0/],
    ['2026-12-10,Heron,back squat,5,45,kg,many', /reserve is "many"/],
    ['2026-12-10,Heron,back squat,5,45,kg,2,9', /8 values under 7 columns/],
  ])('says why it cannot take %s, and writes nothing', async (row, reason) => {
    const { folder, ran } = run(`${HEADER}2026-12-10,Wren,push-up,9,,,\n${row}\n`);
    const { status, stderr } = await ran;
    expect(status).toBe(1);
    expect(stderr.replace(/\s+/g, ' ')).toMatch(reason);
    expect(stderr).toMatch(/row 3: /);
    expect(stderr).toMatch(/nothing was written/);
    expect(fs.existsSync(path.join(folder, 'logs'))).toBe(false);
  });

  it('refuses columns it does not know, rather than dropping them', async () => {
    const { ran } = run('date,client,movement,reps,weight\n2026-12-10,Heron,push-up,5,45\n');
    expect(await ran).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('No column is called "weight"'),
    });
    const noClient = run('date,movement,reps\n2026-12-10,push-up,5\n');
    expect((await noClient.ran).stderr).toContain('--for');
    const named = run('date,movement,reps\n2026-12-10,push-up,5\n', '--for', 'Heron');
    expect((await named.ran).status).toBe(0);
  });

  it('takes quoted notes, days, effort and pain', async () => {
    const { folder, ran } = run(
      'date,client,movement,reps,rpe,load,unit,day,session rpe,minutes,pain,note\n2026-12-10,Heron,back squat,5,8,45,kg,Lower,7,52,knee 2,"felt ""good"", and\nquick"\n',
    );
    expect(await ran).toMatchObject({ status: 0 });
    expect(fs.readFileSync(path.join(folder, 'logs/2026.stave'), 'utf8')).toBe(
      `log Heron, 2026-12-10, Lower\n  back squat: 45kg 5 rpe 8\n  session: rpe 7, 52min\n  pain: knee 2/10\n  note: "felt 'good', and quick"\n`,
    );
  });
});

describe('stave share', () => {
  /** Everything in a folder as text: PDFs through pdftotext (poppler). */
  function contents(folder: string): string {
    return fs
      .readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .map((name) => {
        const file = path.join(folder, name);
        if (!name.endsWith('.pdf')) return `${name}\n${fs.readFileSync(file, 'utf8')}`;
        const { status, stdout } = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
        expect(status).toBe(0);
        return `${name}\n${stdout}\n${fs.readFileSync(file, 'latin1')}`;
      })
      .join('\n');
  }

  it.each(['Plover', 'Dunlin', 'Wren', 'Avocet'])(
    'writes the plan of %s and nothing of anyone else',
    async (name) => {
      const folder = folderWith({});
      const { status } = await stave(BOATHOUSE, 'share', '--for', name, '-o', path.join(folder, 'out'));
      expect(status).toBe(0);
      const all = contents(path.join(folder, 'out'));
      expect(all).toContain(name);
      const clients = ['Plover', 'Dunlin', 'Wren', 'Avocet'];
      for (const other of clients.filter((client) => client !== name))
        expect(all).not.toMatch(new RegExp(`\\b${other}\\b`, 'i'));
      // What only the others' files say: their care lines, and the notes and reasons of the coach.
      const own = fs.readFileSync(path.join(BOATHOUSE, `clients/${name.toLowerCase()}.stave`), 'utf8');
      const texts = clients
        .filter((client) => client !== name)
        .flatMap(
          (client) =>
            fs
              .readFileSync(path.join(BOATHOUSE, `clients/${client.toLowerCase()}.stave`), 'utf8')
              .match(/(?<=")[^"\n]{12,}(?=")|(?<=-- ).{12,}/g) ?? [],
        );
      expect(texts.length).toBeGreaterThan(3);
      for (const text of texts.filter((each) => !own.includes(each))) expect(all).not.toContain(text);
      // The first PDF waits for the fonts.
    },
    60_000,
  );

  it('refuses where the plan names somebody else, and a folder that is not empty', async () => {
    const folder = folderWith({
      ...SMALL,
      'winter.stave': (SMALL['winter.stave'] ?? '').replace(
        'box squat: 3x8 r3',
        'box squat: 3x8 r3 "as wren does it"',
      ),
    });
    const named = await stave(folder, 'share', '--for', 'Heron', '-o', 'out');
    expect(named).toMatchObject({ status: 2, stderr: expect.stringContaining('names Wren') });
    expect(fs.existsSync(path.join(folder, 'out'))).toBe(false);
    const full = folderWith({ ...SMALL, 'out/old.txt': 'old' });
    expect((await stave(full, 'share', '--for', 'Heron', '-o', 'out')).stderr).toContain('not empty');
    expect(fs.readdirSync(path.join(full, 'out'))).toEqual(['old.txt']);
  });
});
