// The writer of PDF without what no document of ours has: compressed web fonts, photographs, codes to scan, passwords. And for
// browsers, what stands in for modules of Node.
import path from 'node:path';
import { root } from './prepare.mjs';

/** Modules that are left out, and what stands for what they export. */
const LEFT_OUT = [
  // 0.5 MB of words for fonts in the format WOFF2. Ours are not.
  { filter: /^brotli\//, contents: 'module.exports = () => { throw new Error("no web fonts here"); };' },
  {
    filter: /\/qrEnc(?:\.js)?$/,
    contents: 'exports.default = { measure() { throw new Error("no codes to scan here"); } };',
  },
  {
    filter: /^png-js$/,
    contents: 'module.exports = class { constructor() { throw new Error("no photographs here"); } };',
  },
  { filter: /^@noble\/ciphers\//, contents: 'exports.cbc = exports.ecb = undefined;' },
];

export const pdfParts = {
  name: 'pdf-parts',
  setup(build) {
    for (const { filter, contents } of LEFT_OUT) {
      build.onResolve({ filter }, ({ path: name }) => ({ path: name, namespace: 'left-out' }));
      build.onLoad({ filter, namespace: 'left-out' }, () => ({ contents, loader: 'js' }));
    }
  },
};

const standIn = (file) => path.join(root, 'server', 'src', 'browser', 'standIns', file);

/** What pdfkit asks of Node, in a browser. */
export const browserParts = {
  name: 'browser-parts',
  setup(build) {
    for (const name of ['events', 'stream', 'zlib', 'fs'])
      build.onResolve({ filter: new RegExp(`^${name}$`) }, () => ({ path: standIn(`${name}.ts`) }));
    const { initialOptions } = build;
    initialOptions.inject = [...(initialOptions.inject ?? []), standIn('buffer.ts')];
    initialOptions.define = { ...initialOptions.define, __dirname: '""', global: 'globalThis' };
  },
};
