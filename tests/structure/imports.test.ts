import { describe, expect, it } from 'vitest';
import { importsOf, repositoryFiles, target } from './repository.js';

// Imports go one way: grammar <- engine <- lsp and cli <- entry points. The client talks to the server through the
// protocol only.

const layers: Record<string, readonly string[]> = {
  'grammar/': ['grammar/'],
  'server/src/engine/': ['grammar/', 'server/src/engine/'],
  'server/src/lsp/': ['grammar/', 'server/src/engine/', 'server/src/lsp/'],
  'server/src/pdf/': ['grammar/', 'server/src/engine/', 'server/src/pdf/'],
  'server/src/cli/': ['grammar/', 'server/src/engine/', 'server/src/pdf/', 'server/src/cli/'],
  'server/src/node/': ['grammar/', 'server/src/', 'seeds/'],
  'server/src/browser/': [
    'grammar/',
    'server/src/engine/',
    'server/src/lsp/',
    'server/src/pdf/',
    'server/src/browser/',
    'seeds/',
  ],
  'client/': ['client/'],
};

const layerOf = (file: string): string | undefined =>
  Object.keys(layers).find((layer) => file.startsWith(layer));

const sources = repositoryFiles().filter(
  (file) => /\.tsx?$/.test(file) && /^(grammar|server\/src|client)\//.test(file),
);

describe('imports go one way', () => {
  it('every source file lies in a layer', () => {
    expect(sources.filter((file) => layerOf(file) === undefined)).toEqual([]);
  });

  it.each(sources)('%s', (file) => {
    const allowed = layers[layerOf(file) ?? ''] ?? [];
    const wrong = importsOf(file)
      .filter((name) => name.startsWith('.'))
      .map((name) => target(file, name))
      .filter((to) => !allowed.some((layer) => to.startsWith(layer)));
    expect(wrong).toEqual([]);
  });

  it('only the client knows the editor, only the protocol layers know the protocol', () => {
    const wrong = sources.flatMap((file) =>
      importsOf(file)
        .filter((name) => {
          if (/^vscode-languageserver/.test(name)) return !/^server\/src\/(lsp|node|browser)\//.test(file);
          return /^vscode(-languageclient)?(\/|$)/.test(name) && !file.startsWith('client/');
        })
        .map((name) => `${file}: ${name}`),
    );
    expect(wrong).toEqual([]);
  });

  it('only the entry points, the command line and the build touch the machine', () => {
    const wrong = sources.filter(
      (file) =>
        /^(grammar|server\/src\/(engine|lsp|pdf|browser))\//.test(file) &&
        importsOf(file).some((name) => name.startsWith('node:')),
    );
    expect(wrong).toEqual([]);
  });

  it('relative imports name the file that will be there, with its ending', () => {
    const wrong = sources.flatMap((file) =>
      importsOf(file)
        .filter((name) => name.startsWith('.') && !/\.(js|json|css)$/.test(name))
        .map((name) => `${file}: ${name}`),
    );
    expect(wrong).toEqual([]);
  });
});
