/** The server speaks the language that the client names in its greeting; what stands in files stays as it is. */

import { afterEach, describe, expect, it } from 'vitest';
import type { CodeAction, Hover, MarkupContent } from 'vscode-languageserver/node';
import { Editor, positionOf } from './editor.js';
import { example } from './example.js';

const uri = 'untitled:Untitled-1';
const misspelt = example.replace('  back squat:     3x6', '  back sqat:      3x6');

let editor: Editor | undefined;
afterEach(async () => {
  await editor?.stop();
  editor = undefined;
});

interface Said {
  readonly finding: string;
  readonly title: string;
  readonly hover: string;
  readonly written: string | undefined;
}

/** A finding, the title of its repair and what that writes, and a hover, for a client of that locale. */
async function saidIn(locale: string | undefined): Promise<Said> {
  editor = await Editor.start(locale === undefined ? {} : { locale });
  await editor.open(uri, misspelt);
  const [diagnostic] = (await editor.diagnostics(uri)).filter(({ code }) => code === 'unknown-name');
  const actions = await editor.ask<CodeAction[]>('textDocument/codeAction', uri, {
    range: diagnostic?.range,
    context: { diagnostics: [diagnostic] },
  });
  const fix = actions.find(({ title }) => title.includes('back squat'));
  const change = JSON.stringify(fix?.edit ?? {});
  const hover = await editor.ask<Hover | null>('textDocument/hover', uri, {
    position: positionOf(misspelt, '3x8 r3'),
  });
  return {
    finding: diagnostic?.message ?? '',
    title: fix?.title ?? '',
    hover: (hover?.contents as MarkupContent | undefined)?.value ?? '',
    written: /"newText":"([^"]*)"/.exec(change)?.[1],
  };
}

describe('a finding, a repair and a hover', () => {
  it.each([
    ['de', 'ist als Übung nicht bekannt', 'In „back squat“ ändern', 'Wiederholungen bis zum Versagen'],
    ['de-AT', 'ist als Übung nicht bekannt', 'In „back squat“ ändern', 'Wiederholungen bis zum Versagen'],
    ['es', 'No se conoce «back sqat» como', 'Cambiar a «back squat»', 'repeticiones previstas en reserva'],
    [
      'es_419',
      'No se conoce «back sqat» como',
      'Cambiar a «back squat»',
      'repeticiones previstas en reserva',
    ],
    [undefined, 'is called "back sqat"', 'Change to "back squat"', 'reserve'],
    ['fr', 'is called "back sqat"', 'Change to "back squat"', 'reserve'],
  ])('in an editor set to %s', async (locale, finding, title, hover) => {
    const said = await saidIn(locale);
    expect(said.finding).toContain(finding);
    expect(said.title).toContain(title);
    expect(said.hover.toLowerCase()).toContain(hover.toLowerCase());
    expect(said.written).toBe('back squat');
  });

  it('keep numbers in the form of the notation', async () => {
    const { hover } = await saidIn('de');
    expect(hover).toMatch(/\d\.\d/);
    expect(hover).not.toMatch(/\d,\d+ (?:kg|%)/);
  });
});

describe('a preview', () => {
  it('is a page in the language of the editor', async () => {
    editor = await Editor.start({ locale: 'de' });
    await editor.open(uri, example);
    const answer = await editor.connection.sendRequest<{
      kinds: { title: string }[];
      page: { body: string } | null;
    }>('stave/preview', { uri });
    expect(answer.kinds.map(({ title }) => title)).toContain('Trainingskarte');
    expect(answer.page?.body).toContain('So lesen Sie diesen Plan');
    expect(answer.page?.body).toContain('7. bis 13. Dezember 2026');
    expect(answer.page?.body).not.toMatch(/How to read|Take care|in reserve/);
  });
});
