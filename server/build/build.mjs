// Bundles everything that is shipped into dist/: the extension, the language server and the command line, and in
// dist/web/ the extension and the server for editors in a browser.
//
//   node server/build/build.mjs           for release
//   node server/build/build.mjs --dev     with source maps, not minified
import fs from 'node:fs';
import path from 'node:path';
import { leanFont } from './leanFont.mjs';
import { noNetwork } from './noNetwork.mjs';
import { browserParts, pdfParts } from './pdfParts.mjs';
import { ensurePackages, root } from './prepare.mjs';

ensurePackages();
const esbuild = await import('esbuild');

const dev = process.argv.includes('--dev');
const dist = path.join(root, 'dist');

const shared = {
  absWorkingDir: root,
  bundle: true,
  platform: 'node',
  target: 'node20',
  minify: !dev,
  sourcemap: dev ? 'linked' : false,
  legalComments: 'none',
  metafile: true,
  // A name that a module lacks is a mistake of ours, not one to be found when it runs.
  logOverride: { 'import-is-undefined': 'error' },
  logLevel: 'warning',
};

const commonjs = {
  format: 'cjs',
  // CommonJS has no import.meta.url; modules use it to find the files that lie beside the bundle.
  banner: { js: 'const importMetaUrl = require("node:url").pathToFileURL(__filename).href;' },
  define: { 'import.meta.url': 'importMetaUrl' },
};

const esm = {
  format: 'esm',
  // Bundled CommonJS packages expect these to be there.
  banner: {
    js: [
      'import { createRequire as stCreateRequire } from "node:module";',
      'import { fileURLToPath as stFileURLToPath } from "node:url";',
      'import { dirname as stDirname } from "node:path";',
      'const require = stCreateRequire(import.meta.url);',
      'const __filename = stFileURLToPath(import.meta.url);',
      'const __dirname = stDirname(__filename);',
    ].join('\n'),
  },
};

const web = {
  platform: 'browser',
  target: 'es2022',
  // Node's own modules do not resolve for a browser: an import of one breaks the build.
  format: 'cjs',
  define: { 'process.env.NODE_ENV': '"production"' },
};

/** Bundles to make for dynamic imports: name in dist/ -> source file or package. */
const lazy = new Map([
  // Named by its file, as it runs in a thread of its own.
  ['pdfWorker', path.join(root, 'server', 'src', 'cli', 'pdfWorker.ts')],
]);

/**
 * Turns every dynamic import in our own code into a bundle of its own, loaded when it is first needed. The PDF
 * writer is megabytes large; neither the start of the server nor `stave check` should pay for it.
 */
const lazyImports = {
  name: 'lazy-imports',
  setup(build) {
    build.onResolve({ filter: /.*/ }, async ({ path: name, kind, importer, resolveDir, pluginData }) => {
      const ours = !importer.includes('node_modules');
      if (kind !== 'dynamic-import' || !ours || pluginData?.looked || name.startsWith('node:'))
        return undefined;
      const found = await build.resolve(name, { kind, resolveDir, importer, pluginData: { looked: true } });
      if (found.errors.length > 0 || found.external) return found;
      // The program as a server is the server itself.
      if (found.path === path.join(root, 'server', 'src', 'node', 'server.ts'))
        return { path: './server.cjs', external: true };
      const bundle = name.startsWith('.')
        ? path.basename(name).replace(/\.[jt]sx?$/, '')
        : name.replace(/\W+/g, '-');
      const known = lazy.get(bundle);
      if (known !== undefined && known !== found.path) {
        return {
          errors: [{ text: `two dynamic imports would both become ${bundle}.mjs: ${known}, ${found.path}` }],
        };
      }
      lazy.set(bundle, found.path);
      return { path: `./${bundle}.mjs`, external: true };
    });
  },
};

/** The checks of data speak sixty languages; what they say is never shown, so one is enough. */
const oneLanguage = {
  name: 'one-language',
  setup(build) {
    build.onLoad({ filter: /zod[\\/]v4[\\/]locales[\\/]index\.js$/ }, () => ({
      contents: "export { default as en } from './en.js';",
      loader: 'js',
    }));
  },
};

/** The library that speaks with the server is a bundle of its own: it is loaded while the server's process starts. */
const clientLater = {
  name: 'client-later',
  setup(build) {
    build.onResolve({ filter: /^\.\/languageClient\.js$/ }, () => ({
      path: './languageClient.cjs',
      external: true,
    }));
  },
};

/**
 * The editor's names as exports of one module. Each of our modules would otherwise copy all four hundred of them when
 * it is loaded, which was two thirds of what loading the extension took (46 ms, then 15).
 */
const editorOnce = {
  name: 'editor-once',
  setup(build) {
    build.onResolve({ filter: /^vscode$/ }, ({ importer, namespace, path: name }) =>
      namespace === 'file' && !importer.includes('node_modules')
        ? { path: name, namespace: 'editor' }
        : { path: name, external: true },
    );
    build.onLoad({ filter: /.*/, namespace: 'editor' }, () => {
      const folder = path.join(root, 'client', 'src');
      const sources = fs.readdirSync(folder).filter((file) => file.endsWith('.ts'));
      const names = sources.flatMap((file) =>
        [...fs.readFileSync(path.join(folder, file), 'utf8').matchAll(/\bvscode\.(\w+)/g)].map(
          ([, name]) => name,
        ),
      );
      const exported = [...new Set(names)].sort().map((name) => `export const ${name} = editor.${name};`);
      return { contents: [`const editor = require('vscode');`, ...exported].join('\n'), loader: 'js' };
    });
  },
};

const entries = [
  {
    source: 'client/src/desktop.ts',
    outfile: 'extension.cjs',
    options: { ...commonjs, plugins: [noNetwork, oneLanguage, clientLater, editorOnce] },
  },
  {
    source: 'client/src/languageClient.ts',
    outfile: 'languageClient.cjs',
    options: { ...commonjs, external: ['vscode'], plugins: [noNetwork] },
  },
  {
    source: 'server/src/node/server.ts',
    outfile: 'server.cjs',
    options: { ...commonjs, plugins: [noNetwork, oneLanguage, pdfParts, lazyImports] },
  },
  {
    source: 'server/src/node/stave.ts',
    outfile: 'stave.js',
    options: { ...esm, plugins: [noNetwork, oneLanguage, pdfParts, lazyImports] },
  },
  {
    source: 'client/src/web.ts',
    outfile: 'web/extension.js',
    options: { ...web, plugins: [noNetwork, oneLanguage, editorOnce] },
  },
  {
    source: 'server/src/browser/server.ts',
    outfile: 'web/server.js',
    options: { ...web, format: 'iife', plugins: [noNetwork, oneLanguage, pdfParts, browserParts] },
  },
  // The panels beside the text: pages of their own, with one script and one style sheet for all of them.
  {
    source: 'client/src/webview/panel.ts',
    outfile: 'preview.js',
    options: {
      ...web,
      format: 'iife',
      loader: { '.css': 'text' },
      plugins: [noNetwork, oneLanguage],
    },
  },
  { source: 'client/src/webview/preview.css', outfile: 'preview.css', options: { ...web } },
];

fs.mkdirSync(dist, { recursive: true });

const inputs = new Set();
async function bundle(source, outfile, options) {
  const target = path.join(dist, outfile);
  const building = esbuild.build({ ...shared, ...options, entryPoints: [source], outfile: target });
  // By then esbuild has said what is wrong.
  const { metafile } = await building.catch(() => process.exit(1));
  for (const input of Object.keys(metafile.inputs)) inputs.add(input);
  console.log(`dist/${outfile}  ${Math.ceil(fs.statSync(target).size / 1024)} kB`);
}

/**
 * The bundles that are loaded when needed. What several of them use, the engine above all, becomes a bundle of its
 * own that they share: two copies of it would be a tenth of the package. Returns the files made.
 */
async function bundleLazy() {
  for (let known = -1; known !== lazy.size; ) {
    known = lazy.size;
    const { metafile, outputFiles } = await esbuild
      .build({
        ...shared,
        ...esm,
        plugins: [noNetwork, oneLanguage, pdfParts, lazyImports],
        entryPoints: Object.fromEntries(lazy),
        splitting: true,
        chunkNames: 'shared-[hash]',
        outExtension: { '.js': '.mjs' },
        outdir: dist,
        write: false,
      })
      .catch(() => process.exit(1));
    // A bundle may have named more of them.
    if (known !== lazy.size) continue;
    for (const input of Object.keys(metafile.inputs)) inputs.add(input);
    for (const { path: file, contents } of outputFiles) {
      fs.writeFileSync(file, contents);
      console.log(`dist/${path.basename(file)}  ${Math.ceil(contents.length / 1024)} kB`);
    }
    return outputFiles.map(({ path: file }) => path.basename(file));
  }
  return [];
}

for (const { source, outfile, options } of entries) {
  await bundle(source, outfile, options);
}
const made = new Set(entries.map(({ outfile }) => outfile));
for (const file of await bundleLazy()) made.add(file);

// The program is run by its name, so it needs the line that names its interpreter.
const program = path.join(dist, 'stave.js');
const text = fs.readFileSync(program, 'utf8');
if (!text.startsWith('#!')) fs.writeFileSync(program, `#!/usr/bin/env node\n${text}`);
fs.chmodSync(program, 0o755);

// Fonts for the PDF.
const fonts = path.join(root, 'node_modules', 'dejavu-fonts-ttf');
fs.rmSync(path.join(dist, 'fonts'), { recursive: true, force: true });
fs.mkdirSync(path.join(dist, 'fonts'), { recursive: true });
for (const file of ['DejaVuSansCondensed.ttf', 'DejaVuSansCondensed-Bold.ttf'])
  fs.writeFileSync(path.join(dist, 'fonts', file), leanFont(fs.readFileSync(path.join(fonts, 'ttf', file))));
fs.copyFileSync(path.join(fonts, 'LICENSE'), path.join(dist, 'fonts', 'LICENSE'));

fs.writeFileSync(path.join(dist, 'THIRD-PARTY.txt'), licences(inputs));

// What an earlier build has left and this one no longer makes. Nothing is removed before: a program that runs from
// dist/ meanwhile finds its files.
for (const file of fs.readdirSync(dist)) {
  if (/\.([cm]?js|map)$/.test(file) && !made.has(file.replace(/\.map$/, '')))
    fs.rmSync(path.join(dist, file));
}

/** The licences of all packages that went into the bundles, as they ask for. */
function licences(files) {
  const folders = new Set();
  for (const file of files) {
    // What a package leaves out in browsers is listed too.
    if (file.startsWith('(disabled):')) continue;
    const folder = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(file)?.[1];
    if (folder) folders.add(folder);
  }
  const parts = [...folders].sort().map((folder) => {
    const { name, version, license } = JSON.parse(
      fs.readFileSync(path.join(root, folder, 'package.json'), 'utf8'),
    );
    const file = fs
      .readdirSync(path.join(root, folder))
      .find((entry) => /^(licen[sc]e|copying)/i.test(entry));
    const text = file ? fs.readFileSync(path.join(root, folder, file), 'utf8').trim() : '';
    return `${name} ${version} (${license ?? 'licence below'})\n\n${text}\n`;
  });
  return `Stave contains these packages.\n\n${parts.join(`\n${'-'.repeat(78)}\n\n`)}`;
}
