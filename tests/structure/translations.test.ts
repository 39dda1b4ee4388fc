/** Every text that people see goes through a catalogue, and German and Spanish are whole. */

import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { read, repositoryFiles } from './repository.js';

const json = (file: string): Record<string, string> => JSON.parse(read(file));

const LANGUAGES = ['de', 'es'] as const;
const serverKeys: string[] = JSON.parse(read('server/l10n/keys.json'));

/** English by key, and the file of a language. */
const CATALOGUES = [
  {
    name: 'the server',
    english: Object.fromEntries(serverKeys.map((key) => [key, key])),
    file: (language: string) => `server/l10n/${language}.json`,
  },
  {
    name: "the editor's windows and messages",
    english: json('client/l10n/bundle.l10n.json'),
    file: (language: string) => `client/l10n/bundle.l10n.${language}.json`,
  },
  {
    name: 'the manifest',
    english: json('package.nls.json'),
    file: (language: string) => `package.nls.${language}.json`,
  },
];

const places = (text: string): string[] => [...new Set(text.match(/\{\w+\}/g) ?? [])].sort();
/** What is written in the notation, and links: they mean the same in every language. */
const kept = (text: string): string[] => text.match(/`[^`]+`|\]\(command:[^)]*\)/g) ?? [];

describe.each(LANGUAGES)('the texts in %s', (language) => {
  describe.each(CATALOGUES)('of $name', ({ english, file }) => {
    const texts = json(file(language));

    it('are there for every key, and for no other', () => {
      expect(Object.keys(english).filter((key) => !(texts[key] ?? '').trim())).toEqual([]);
      expect(Object.keys(texts).filter((key) => !Object.hasOwn(english, key))).toEqual([]);
    });

    it('have the same places for values, and spaces at their ends', () => {
      const ends = (text: string) => [/^\s*/.exec(text)?.[0], /\s*$/.exec(text)?.[0]];
      const wrong = Object.entries(english).filter(([key, text]) => {
        const other = texts[key] ?? text;
        return JSON.stringify([places(text), ends(text)]) !== JSON.stringify([places(other), ends(other)]);
      });
      expect(wrong).toEqual([]);
    });

    it('leave the notation as it is written', () => {
      const wrong = Object.entries(english).flatMap(([key, text]) =>
        kept(text)
          .filter((piece) => texts[key] !== undefined && !texts[key].includes(piece))
          .map((piece) => `${piece} in: ${texts[key]}`),
      );
      expect(wrong).toEqual([]);
    });
  });
});

it('texts that name a command name it as the palette does', () => {
  const english = json('package.nls.json');
  const titles = Object.keys(english).filter((key) => key.startsWith('command.'));
  const wrong = LANGUAGES.flatMap((language) => {
    const manifest = json(`package.nls.${language}.json`);
    return CATALOGUES.flatMap(({ english: keys, file }) => {
      const texts = json(file(language));
      return Object.entries(keys).flatMap(([key, text]) =>
        titles
          .filter((title) => text.includes(`Stave: ${english[title]}`))
          .filter((title) => !texts[key]?.includes(`Stave: ${manifest[title]}`))
          .map((title) => `${language}: ${texts[key]} does not name ${manifest[title]}`),
      );
    });
  });
  expect(wrong).toEqual([]);
});

/** The name that is called, or that tags a template; empty for anything but a name alone. */
const called = (node: ts.Node): string => {
  const callee = ts.isCallExpression(node)
    ? node.expression
    : ts.isTaggedTemplateExpression(node)
      ? node.tag
      : undefined;
  return callee && ts.isIdentifier(callee) ? callee.text : '';
};

/** Calls that make a text of a key, or mark one. */
const THROUGH = /^(?:say|later|filled|plural|countOf|countWords)$/;

const isText = (node: ts.Node): boolean => {
  const written = ts.isStringLiteralLike(node)
    ? node.text
    : ts.isTemplateExpression(node)
      ? [node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join(' ')
      : '';
  return /[a-z]{2,} [a-z]{2,}/i.test(written.replace(/`[^`]*`/g, ''));
};

/** Texts in a part of the tree that go through nothing. */
function bareIn(node: ts.Node): ts.Node[] {
  if (THROUGH.test(called(node))) return [];
  if (isText(node)) return [node];
  const bare: ts.Node[] = [];
  ts.forEachChild(node, (child) => {
    bare.push(...bareIn(child));
  });
  return bare;
}

/** Text that reaches people without a key: in what a problem, a finding or a fix says. */
function bareTexts(file: string, text: string): string[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const said =
      ts.isPropertyAssignment(node) &&
      ts.isIdentifier(node.name) &&
      /^(?:headline|detail|advice|message)$/.test(node.name.text)
        ? node.initializer
        : ts.isCallExpression(node) && called(node) === 'problem'
          ? node.arguments[2]
          : undefined;
    for (const bare of said ? bareIn(said) : []) found.push(`${file}: ${bare.getText(source)}`);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** Texts that are looked up while the module is loaded, before the catalogue is there. */
function tooEarly(file: string, text: string): string[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isFunctionLike(node)) return;
    if (/^(?:say|said|filled|countOf|countWords)$/.test(called(node)))
      found.push(`${file}: ${node.getText(source)}`);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

const sources = repositoryFiles().filter((file) => /^(?:grammar|server\/src)\/.*\.ts$/.test(file));

describe('a text', () => {
  it('of a problem, a finding or a fix has a key', () => {
    const looked = sources.filter((file) => /^(?:grammar|server\/src\/engine)\//.test(file));
    expect(looked.flatMap((file) => bareTexts(file, read(file)))).toEqual([]);
  });

  it("of the editor's windows is asked for by the whole name of the call, by which it is collected", () => {
    const client = repositoryFiles().filter((file) => /^client\/src\/.*\.ts$/.test(file));
    const hidden = client.flatMap((file) =>
      [...read(file).matchAll(/.*\bl10n\b(?!\.t\(|\/).*/g)].map(([line]) => `${file}: ${line.trim()}`),
    );
    expect(hidden).toEqual([]);
  });

  it('is looked up late', () => {
    expect(sources.flatMap((file) => tooEarly(file, read(file)))).toEqual([]);
  });

  it('that is bare or early would be noticed', () => {
    const bare =
      "const a = () => ({ headline: fine ? say('this is fine') : 'this is not', advice: 'nor is this one' });";
    expect(bareTexts('x.ts', bare)).toHaveLength(2);
    expect(tooEarly('x.ts', "const a = say('too early'); const b = () => say('late');")).toHaveLength(1);
  });
});
