// Takes out of the bundles what could open a connection. Nothing of ours calls it; the libraries bring it along for
// uses that are not ours: a language server behind a socket, a picture in a PDF from an address.
import fs from 'node:fs';

/** Modules of Node that speak to other machines, or to other programs over a socket. */
export const NETWORK_MODULES = ['net', 'http', 'https', 'http2', 'tls', 'dns', 'dgram', 'inspector'];

const names = NETWORK_MODULES.join('|');
const refusal = 'Stave opens no network connection';

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
    build.onLoad({ filter: /pdfmake[\\/](?:js[\\/]URLResolver|build[\\/]pdfmake)\.js$/ }, ({ path }) => {
      const text = fs.readFileSync(path, 'utf8');
      const parts = text.split('await fetch(');
      if (parts.length !== 3) throw new Error(`${path}: the writer of PDF has changed the way it fetches`);
      return { contents: parts.join('await refuseToFetch(') + refuse, loader: 'js' };
    });
  },
};

const refuse = `\nfunction refuseToFetch() { throw new Error(${JSON.stringify(refusal)}); }\n`;
