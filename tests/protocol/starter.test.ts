import fs from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type {
  StarterFiles,
  StarterFollow,
  StarterOffers,
  StarterPlaces,
  StarterPrograms,
  StarterRead,
} from '../../server/src/lsp/messages.js';
import { Editor, folderWith, until } from './editor.js';
import { people, program } from './example.js';

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

const ask = <Answer>(what: string, params: unknown): Promise<Answer | null> =>
  editor.connection.sendRequest(`stave/starter/${what}`, params);
const here = () => folder.uri('').replace(/\/$/, '');

describe('a coach who starts', () => {
  it('is offered the kits of the folder, then the shipped ones; in a new folder only these', async () => {
    const known = await ask<StarterOffers>('offers', { folder: here() });
    expect(known?.kits[0]).toEqual({ name: 'Boathouse', about: '', known: true });
    expect(known?.kits.slice(1).every(({ about, known: written }) => !written && about !== '')).toBe(true);
    const fresh = await ask<StarterOffers>('offers', { folder: `${here()}/nowhere/yet` });
    expect(fresh?.kits.map(({ name }) => name)).toEqual(['Home corner', 'Community studio', 'Barbell room']);
  });

  it('is told of each answer whether it reads, and how', async () => {
    const read = (field: string, text: string) => ask<StarterRead>('read', { folder: here(), field, text });
    expect((await read('alias', 'heron'))?.problem).toBe(
      'There is a client "heron" already. Take another alias.',
    );
    expect((await read('alias', 'Wren'))?.problem).toBeNull();
    expect((await read('born', '68'))?.problem).toContain('no year');
    expect(await read('set', 'back squat 40kg 8 r2')).toEqual({
      problem: null,
      words: 'back squat, 40kg, 8 reps with 2 left in reserve, done today',
      needs: { pattern: 'squat', movement: 'back squat' },
    });
    expect((await read('set', 'goblet squat 8kg 8'))?.needs).toBeNull();
    expect(await read('set', 'x'.repeat(600))).toBeNull();
    expect(await ask('read', { field: 'age', text: '' })).toBeNull();
  });

  it('gets a client and a program that the server then knows, with nothing written over', async () => {
    const answers = { folder: here(), alias: 'Wren', born: '1968', kits: ['Boathouse'], signedOff: [] };
    const made = await ask<StarterFiles>('client', { ...answers, sets: ['goblet squat 8kg 10 r3'] });
    // The kit is written already.
    expect(made?.files.map((file) => file.path)).toEqual(['clients/wren.stave']);
    expect(made?.client).toBe('wren');
    fs.mkdirSync(path.join(folder.path, 'clients'));
    const file = path.join(folder.path, 'clients', 'wren.stave');
    fs.writeFileSync(file, made?.files[0]?.text ?? '');
    const uri = folder.uri('clients/wren.stave');
    editor.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri, type: 1 }] });
    const programs = await until('her name', async () => {
      const answer = await ask<StarterPrograms>('programs', { uri: here() });
      return answer?.clients.some(({ key }) => key === 'wren') ? answer : undefined;
    });
    expect(programs.programs[0]).toMatchObject({ id: '', title: 'First weeks' });
    const follow = await ask<StarterFollow>('follow', {
      uri,
      client: 'wren',
      program: '',
      on: ['thu', 'mon'],
    });
    expect(follow).toMatchObject({ program: 'First weeks', edit: { uri } });
    expect(follow?.edit.newText).toMatch(/^\n {2}follows: First weeks, from \d{4}-\d\d-\d\d, on mon thu$/);
    expect(follow?.files.map((each) => each.path)).toEqual(['programs/first-weeks.stave']);
    const again = await ask('client', { ...answers, sets: [] }).then(
      () => 'written',
      (error: Error) => error.message,
    );
    expect(again).toContain('There is a client "Wren" already.');
  });

  it('is led to a load and to a warning, or to none', async () => {
    const places = await ask<StarterPlaces>('places', { uri: here(), client: null });
    expect(places?.load?.uri).toBe(folder.uri('programs/winter.stave'));
    expect(await ask('places', { uri: 'file:///nowhere/at/all.stave', client: null })).toBeNull();
  });

  it('is refused a program where there is no such client, and in a file that lies in no folder', async () => {
    const words = (params: object) =>
      ask('follow', { program: '', on: ['mon'], ...params }).then(
        () => 'made',
        (error: Error) => error.message,
      );
    expect(await words({ uri: here(), client: 'nobody' })).toBe(
      'There is no such client or program any more.',
    );
    expect(await words({ uri: 'untitled:draft', client: 'heron' })).toContain('lies in no open folder');
  });
});
