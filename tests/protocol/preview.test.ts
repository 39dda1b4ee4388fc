import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { CancellationToken, CancellationTokenSource, ProgressType } from 'vscode-languageserver/node';
import type { Preview } from '../../server/src/lsp/messages.js';
import { Editor, folderWith, positionOf, root, until } from './editor.js';
import { people, program } from './example.js';

const options = { large: false, size: null, date: null };
let folder: ReturnType<typeof folderWith>;
let editor: Editor;

beforeEach(async () => {
  folder = folderWith({ 'people.stave': people, 'programs/winter.stave': program });
  editor = await Editor.start({ folders: [folder.path] });
});
afterEach(async () => {
  await editor.stop();
  folder.remove();
});

function preview(more: object = {}): Promise<Preview | null> {
  return editor.connection.sendRequest('stave/preview', {
    uri: folder.uri('people.stave'),
    client: null,
    kind: null,
    options,
    ...more,
  });
}

/** The marks of elements whose text holds a piece: `0:7:18:7:28`. */
function marks(body: string, piece: string): string[] {
  return body
    .split(/(?=<tr)/)
    .filter((row) => row.includes(piece))
    .map((row) => /data-at="([^"]+)"/.exec(row)?.[1] ?? '');
}

describe('the preview', () => {
  it('is the plan of the client whose loads are shown, with everything to choose from', async () => {
    const answer = await preview();
    expect(answer).toMatchObject({ kind: 'plan', client: 'heron', empty: null, notice: null, dates: [] });
    expect(answer?.clients.map(({ name }) => name)).toEqual(['Heron']);
    expect(answer?.kinds.map(({ id }) => id)).toEqual(
      expect.arrayContaining(['plan', 'card', 'floor', 'overview']),
    );
    expect(answer?.page?.title).toBe('Plan for Heron: Harbour winter');
    expect(answer?.page?.body).toContain('47.5 kg');
  });

  it('leads every row back to its cell, without an address in the page', async () => {
    const answer = await preview();
    const { body = '', sources = [] } = answer?.page ?? {};
    expect(body).not.toContain(folder.path);
    expect(body).not.toMatch(/data-file|data-start/);
    const own = marks(body, 'Back squat');
    expect(own).toHaveLength(5);
    const [source, line, character] = (own[2] ?? '').split(':').map(Number);
    expect(sources[source ?? 0]).toBe(folder.uri('programs/winter.stave'));
    expect({ line, character }).toEqual(positionOf(program, 'x5        |'));
  });

  it('needs nothing that a strict page forbids', async () => {
    for (const { id } of (await preview())?.kinds ?? []) {
      const { page } = (await preview({ kind: id })) ?? {};
      if (!page) continue;
      expect(page.body, id).not.toMatch(
        /<script|<style|\sstyle=|\son[a-z]+=|javascript:|<link|<iframe|\ssrc=/i,
      );
      expect(page.css, id).not.toMatch(/@import|url\(|:root|prefers-color-scheme|(^|[\s}])body\s*\{/);
    }
  });

  it('follows the unsaved text', async () => {
    const uri = folder.uri('programs/winter.stave');
    await editor.open(uri, program.replace('3x6 r2', '3x4 r2'));
    const answer = await until('the change', async () => {
      const latest = await preview();
      return latest?.page?.body.includes('3 × 4') ? latest : undefined;
    });
    expect(answer.page?.body).not.toContain('<b class="big">3 × 6</b>');
  });

  it('tells that what it shows may have changed', async () => {
    let told = 0;
    editor.connection.onNotification('stave/statusChanged', () => {
      told += 1;
    });
    await preview();
    const before = told;
    await editor.open(folder.uri('people.stave'), people.replace('47.5kg', '50kg'));
    await until('news', () => told > before);
  });

  it('can be about one day, and offers the days', async () => {
    const answer = await preview({ kind: 'card', options: { ...options, date: '2026-12-10' } });
    expect(answer?.date).toBe('2026-12-10');
    expect(answer?.dates[0]).toEqual({ date: '2026-12-07', title: 'Monday 7 December 2026' });
    expect(answer?.page?.body).toContain('Overhead press');
    expect(answer?.page?.body).not.toContain('Back squat');
  });

  it('goes back to the next day, the first kind and the shown client for what is not there', async () => {
    const answer = await preview({
      kind: 'card',
      client: 'puffin',
      options: { ...options, date: '2026-12-08' },
    });
    expect(answer).toMatchObject({ client: 'heron', date: null, empty: null });
    expect(await preview({ kind: 'poster' })).toMatchObject({ kind: 'plan' });
    expect(await preview({ options: 7, client: 3, kind: {} })).toMatchObject({ kind: 'plan' });
  });

  it('is drawn in large print', async () => {
    const answer = await preview({ options: { ...options, large: true } });
    expect(answer?.page?.css).toContain('--font: 16pt');
    expect(marks(answer?.page?.body ?? '', 'Back squat')).toHaveLength(5);
  });

  it('is drawn for the paper of the settings, as what is written is', async () => {
    await editor.stop();
    editor = await Editor.start({ folders: [folder.path], settings: () => ({ plan: { size: 'letter' } }) });
    const answer = await preview({ kind: 'overview' });
    expect(answer?.page?.css).toContain('@page { size: 792pt 612pt;');
    const { files } = await editor.connection.sendRequest<{ files: string[] }>('workspace/executeCommand', {
      command: 'stave.server.export',
      arguments: [{ uri: folder.uri('people.stave'), client: 'heron', formats: ['html'] }],
    });
    expect(fs.readFileSync(fileURLToPath(files[0] ?? ''), 'utf8')).toContain('@page { size: letter;');
  });

  it('counts the mistakes on which the plan rests', async () => {
    await editor.open(
      folder.uri('people.stave'),
      people.replace('trains at: Boathouse', 'trains at: Boathuse'),
    );
    const answer = await until('the notice', async () => {
      const latest = await preview();
      return latest?.notice ? latest : undefined;
    });
    expect(answer.notice).toBe('The files have a mistake. Loads that rest on it are left blank.');
    // A mistake in the files of somebody else is none of hers, in the panel as on the cover of what is written.
    await editor.open(folder.uri('other.stave'), 'client Godwit\n  trains at: Nowhere\n');
    const { files } = await editor.connection.sendRequest<{ files: string[] }>('workspace/executeCommand', {
      command: 'stave.server.export',
      arguments: [{ uri: folder.uri('people.stave'), client: 'heron', formats: ['html'] }],
    });
    expect(fs.readFileSync(fileURLToPath(files[0] ?? ''), 'utf8')).toContain(
      'The files of this plan have 1 mistake.',
    );
    expect((await preview({ client: 'heron' }))?.notice).toBe(answer.notice);
  });

  it('says what is missing where there is nothing to show', async () => {
    await editor.open(folder.uri('people.stave'), people.replace(/ {2}follows:.*\n/, ''));
    const none = await until('no sessions', async () => {
      const latest = await preview();
      return latest?.empty ? latest : undefined;
    });
    expect(none.page).toBeNull();
    expect(none.empty?.heading).toBe('Heron has no sessions');
    expect((await preview({ kind: 'floor' }))?.empty?.heading).toBe('Nobody trains at a known place');
    await editor.change(folder.uri('people.stave'), 'kit Boathouse\n  bar: 15kg\n');
    const nobody = await until('nobody', async () => {
      const latest = await preview();
      return latest?.clients.length === 0 ? latest : undefined;
    });
    expect(nobody.empty?.heading).toBe('No client is written here yet');
  });

  it('has no answer for a file that nobody knows, and for no file', async () => {
    expect(await preview({ uri: 'file:///nowhere/else.stave' })).toBeNull();
    expect(await preview({ uri: 4 })).toBeNull();
    expect(await editor.connection.sendRequest('stave/preview', null)).toBeNull();
  });
});

describe('export', () => {
  const write = (request: object): Promise<{ files: string[]; folder: string }> =>
    editor.connection.sendRequest('workspace/executeCommand', {
      command: 'stave.server.export',
      arguments: [{ uri: folder.uri('people.stave'), client: 'heron', ...request }],
    });
  const names = (files: readonly string[]) => files.map((file) => path.basename(decodeURIComponent(file)));

  it('writes any kind in any format that it has', async () => {
    const formats = ['html', 'pdf', 'ics', 'csv', 'json', 'md'];
    const { files } = await write({ kind: 'plan', formats });
    expect(names(files)).toEqual(formats.map((format) => `Heron-plan.${format}`));
    const made = (name: string) => fs.readFileSync(path.join(folder.path, 'plans', name), 'utf8');
    expect(made('Heron-plan.ics')).toMatch(/^BEGIN:VCALENDAR\r\n/);
    expect(made('Heron-plan.json')).toContain('"Heron"');
    expect(names((await write({ kind: 'card', formats, date: '2026-12-07' })).files)).toEqual([
      'Heron-card-2026-12-07.html',
      'Heron-card-2026-12-07.pdf',
    ]);
  });

  it('says whose document it is drawing, and writes nothing when it is given up', async () => {
    await editor.open(
      folder.uri('people.stave'),
      `${people}\n${people.slice(people.indexOf('client ')).replaceAll('Heron', 'Godwit')}`,
    );
    const said: string[] = [];
    const token = 'first';
    const { connection } = editor;
    const listening = connection.onProgress(new ProgressType<{ message?: string }>(), token, ({ message }) =>
      said.push(message ?? ''),
    );
    const ask = (workDoneToken: string, given = CancellationToken.None) =>
      connection.sendRequest<{ files: string[] } | null>(
        'workspace/executeCommand',
        {
          command: 'stave.server.export',
          arguments: [
            { uri: folder.uri('people.stave'), client: null, formats: ['html', 'pdf'], kind: 'plan' },
          ],
          workDoneToken,
        },
        given,
      );
    const answer = await ask(token);
    expect(names(answer?.files ?? [])).toHaveLength(4);
    expect(said.filter((text) => text !== '')).toEqual(['1/2 · Godwit', '2/2 · Heron']);
    listening.dispose();
    fs.rmSync(path.join(folder.path, 'plans'), { recursive: true });
    const enough = new CancellationTokenSource();
    const second = connection.onProgress(
      new ProgressType<{ message?: string }>(),
      'second',
      ({ message }) => {
        if (message?.startsWith('2/2')) enough.cancel();
      },
    );
    expect(await ask('second', enough.token)).toBeNull();
    expect(fs.existsSync(path.join(folder.path, 'plans'))).toBe(false);
    second.dispose();
  });

  it.each([
    ['plan', {}],
    ['card', { date: '2026-12-10' }],
    ['overview', { large: true }],
    ['floor', { date: '2026-12-07' }],
  ] as const)(
    'names the files of a %s as the command line does, and fills them alike',
    async (kind, more) => {
      const { files } = await write({ kind, formats: ['html'], ...more });
      const output = path.join(folder.path, 'cli');
      const { status, stderr } = spawnSync(process.execPath, [
        ...[path.join(root, 'dist', 'stave.js'), 'plan', folder.path, '--document', kind, '--to', 'html'],
        ...['-o', output, ...(kind === 'floor' ? [] : ['--for', 'Heron'])],
        ...('date' in more ? ['--date', more.date] : []),
        ...('large' in more ? ['--large'] : []),
      ]);
      expect({ status, stderr: String(stderr) }).toEqual({ status: 0, stderr: '' });
      expect(names(files).sort()).toEqual(fs.readdirSync(output).sort());
      for (const name of names(files)) {
        const [own, other] = ['plans', 'cli'].map((place) =>
          fs.readFileSync(path.join(folder.path, place, name), 'utf8'),
        );
        expect(own).toBe(other);
      }
    },
  );

  it('writes everybody where nobody is named', async () => {
    const more = `${people}\nclient Dunlin\n  trains at: Boathouse\n  follows: Harbour winter, from 2026-12-07, on tue\n`;
    await editor.open(folder.uri('people.stave'), more);
    const { files } = await until('both', async () => {
      const answer = await write({ client: null, formats: ['md'] });
      return answer.files.length === 2 ? answer : undefined;
    });
    expect(names(files)).toEqual(['Dunlin-plan.md', 'Heron-plan.md']);
  });

  it('says in plain words why nothing was written', async () => {
    await expect(write({ kind: 'card', date: '2026-12-08' })).rejects.toThrow(
      'Heron has no session on 2026-12-08. Choose another day.',
    );
    await expect(write({ kind: 'card', formats: ['ics'] })).rejects.toThrow(
      'This document cannot be written in that format here. Choose HTML.',
    );
    await expect(write({ formats: [] })).rejects.toThrow('The plan needs a file or folder, and a client.');
  });
});

describe('the roster in the panel', () => {
  const today = new Date().toISOString().slice(0, 10);
  const clients = `client Dipper
  screened: ${today}
  follows: Harbour winter, from ${today}, on mon thu

client Avocet
  screened: 2020-01-01
  follows: Harbour winter, from ${today}, on mon thu
`;
  const logs = `log Dipper, ${today}\n  pain: left knee 6/10\n`;

  it('has a line for each client, the most urgent first, each thing to decide leading to its line', async () => {
    fs.writeFileSync(path.join(folder.path, 'others.stave'), clients);
    fs.writeFileSync(path.join(folder.path, 'logs.stave'), logs);
    for (const file of ['others.stave', 'logs.stave'])
      await editor.connection.sendNotification('workspace/didChangeWatchedFiles', {
        changes: [{ uri: folder.uri(file), type: 1 }],
      });
    const { body, sources } = await until('the roster knows the log', async () => {
      const page = (await preview({ kind: 'roster' }))?.page;
      return page?.body.includes('left knee') ? page : null;
    });
    const order = ['Dipper', 'Avocet', 'Heron'].map((name) => body.indexOf(name));
    expect(order.every((at) => at > 0)).toBe(true);
    expect(order[0]).toBeLessThan(order[1] ?? 0);
    const line = (words: string) => {
      const mark = new RegExp(`data-at="([^"]+)"[^>]*>[^<]*${words}`).exec(body)?.[1] ?? '';
      const [source, row] = mark.split(':').map(Number);
      return [sources[source ?? -1], row];
    };
    // The pain leads to its line in the log, the screening to the client's section, by click or Enter.
    expect(line('6/10 in left knee')).toEqual([folder.uri('logs.stave'), 1]);
    expect(line('[Ss]creening')[0]).toBe(folder.uri('others.stave'));
  });
});
