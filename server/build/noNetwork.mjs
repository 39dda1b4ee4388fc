// Takes out of the bundles what could open a connection. Nothing of ours calls it; the libraries bring it along for
// uses that are not ours: a language server behind a socket, a table from an address.
import fs from 'node:fs';

/** Modules of Node that speak to other machines, or to other programs over a socket. */
export const NETWORK_MODULES = ['net', 'http', 'https', 'http2', 'tls', 'dns', 'dgram', 'inspector'];

const names = NETWORK_MODULES.join('|');
const refusal = 'Stave opens no network connection';

const refuse = `\nfunction refuseConnection() { throw new Error(${JSON.stringify(refusal)}); }\n`;

/** Files that call what browsers and Node have for this without a module. */
const calling = /papaparse(?:\.min)?\.js$/;
const calls = /\bfetch\(|\bnew XMLHttpRequest(?:\(\)?)?/g;

export const noNetwork = {
  name: 'no-network',
  setup(build) {
    build.onResolve({ filter: new RegExp(`^(?:node:)?(?:${names})(?:/.*)?$`) }, ({ path }) => ({
      path,
      namespace: 'no-network',
    }));
    // Whoever would use it is told; nothing is there to be called.
    build.onLoad({ filter: /.*/, namespace: 'no-network' }, () => ({
      contents: `module.exports = new Proxy({}, { get() { throw new Error(${JSON.stringify(refusal)}); } });`,
      loader: 'js',
    }));
    build.onLoad({ filter: calling }, ({ path }) => {
      const text = fs.readFileSync(path, 'utf8');
      const contents = text.replace(calls, (call) =>
        call.startsWith('fetch') ? 'refuseConnection(' : 'refuseConnection()',
      );
      if (contents === text)
        throw new Error(`${path} has changed: what it calls for a connection is not found`);
      return { contents: contents + refuse, loader: 'js' };
    });
  },
};
