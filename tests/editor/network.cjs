// Notes every attempt of a process to reach another: by a socket, a name or a request. Loaded into a process with
// `--require`, it writes to the file that STAVE_NETWORK_LOG names; a suite in the extension host calls `watch` itself.
const fs = require('node:fs');
const modules = {
  net: ['connect', 'createConnection', 'createServer'],
  tls: ['connect'],
  http: ['request', 'get'],
  https: ['request', 'get'],
  http2: ['connect'],
  dns: ['lookup', 'resolve'],
  dgram: ['createSocket'],
};

exports.watch = (log) => {
  const note = (what) => fs.appendFileSync(log, `${process.pid} ${what}\n`);
  const noted = (what, original) =>
    function watched(...args) {
      note(what);
      return original.apply(this, args);
    };
  for (const [name, functions] of Object.entries(modules)) {
    const module = require(name);
    for (const key of functions) module[key] = noted(`${name}.${key}`, module[key]);
  }
  const { Socket } = require('node:net');
  Socket.prototype.connect = noted('Socket.connect', Socket.prototype.connect);
  for (const key of ['fetch', 'WebSocket'])
    if (globalThis[key]) globalThis[key] = noted(key, globalThis[key]);
};

if (process.env.STAVE_NETWORK_LOG) exports.watch(process.env.STAVE_NETWORK_LOG);
