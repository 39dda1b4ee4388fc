// Runs inside VS Code's extension host, as the test entry that run.mjs names in the page address.
// It loads the real suite, sends what the suite prints to the runner, and gives the suite
// `globalThis.workbench` to look at and drive the editor window it runs in.
const net = require('node:net');
const path = require('node:path');
const { format } = require('node:util');

const socket = net.connect(process.env.STAVE_EDITOR_SOCKET);
const waiting = new Map();
let next = 0;
let buffered = '';

const send = (message) => socket.write(`${JSON.stringify(message)}\n`);

socket.setEncoding('utf8').on('data', (chunk) => {
  const lines = (buffered + chunk).split('\n');
  buffered = lines.pop();
  for (const { id, error, result } of lines.map((line) => JSON.parse(line))) {
    const { resolve, reject } = waiting.get(id);
    waiting.delete(id);
    if (error === undefined) resolve(result);
    else reject(new Error(error));
  }
});

const ask =
  (method) =>
  (...args) =>
    new Promise((resolve, reject) => {
      waiting.set(++next, { resolve, reject });
      send({ id: next, method, args });
    });

const methods = [
  ...['screenshot', 'text', 'press', 'type', 'click', 'doubleClick', 'hover'],
  ...['panelText', 'panelClick', 'panelSelect', 'panelPress', 'panelRun', 'consoleErrors'],
];
globalThis.workbench = Object.fromEntries(methods.map((method) => [method, ask(method)]));

// VS Code replaces the console methods with accessors that ignore assignment, hence defineProperty.
let inConsole = false;
function capture() {
  for (const method of ['log', 'info', 'debug', 'warn', 'error']) {
    const original = console[method];
    const value = (...args) => {
      send({ output: `${format(...args)}\n` });
      inConsole = true;
      try {
        original(...args);
      } finally {
        inConsole = false;
      }
    };
    Object.defineProperty(console, method, { configurable: true, writable: true, value });
  }
  for (const stream of [process.stdout, process.stderr]) {
    const original = stream.write;
    stream.write = function write(chunk, ...rest) {
      if (!inConsole) send({ output: String(chunk) });
      return original.call(this, chunk, ...rest);
    };
  }
}

exports.run = async () => {
  capture();
  let failure;
  try {
    const suite = require(path.resolve(process.env.STAVE_EDITOR_TESTS));
    if (typeof suite.run !== 'function') throw new Error('the tests file exports no run()');
    // Like VS Code: run() returns a promise, or takes a callback (error, failures).
    await (suite.run.length === 0
      ? suite.run()
      : new Promise((resolve, reject) => {
          suite.run(process.env.STAVE_EDITOR_TESTS, (error, failures) => {
            if (error || failures > 0) reject(error ?? new Error(`${failures} test(s) failed`));
            else resolve();
          });
        }));
  } catch (error) {
    failure = error;
  }
  await new Promise((flushed) => {
    socket.end(`${JSON.stringify({ done: failure ? String(failure?.stack ?? failure) : null })}\n`, flushed);
  });
  if (failure) throw failure;
};
