// What opening the first file of ours costs the editor's extension host. First of the suites: the extension must not
// be running yet.
const assert = require('node:assert/strict');
const Module = require('node:module');
const path = require('node:path');
const vscode = require('vscode');
const { EXTENSION, open, until } = require('../support.cjs');

/** Milliseconds of the extension host, beside the time that the server takes to start. */
const AIM_MS = 50;

const now = () => Number(process.hrtime.bigint()) / 1e6;

/** Milliseconds that this process has worked: on a busy machine the clock counts the waiting too. */
const worked = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

describe('the start of the extension', function () {
  this.timeout(60_000);

  it(`holds the extension host up for less than ${AIM_MS} ms`, async () => {
    const extension = vscode.extensions.getExtension(EXTENSION);
    assert.equal(extension.isActive, false, 'nothing has started it before a file of ours is open');
    const bundle = path.join(extension.extensionPath, extension.packageJSON.main);
    const times = { load: 0, activate: 0, worked: 0, client: 0, whole: 0 };
    const load = Module._load;
    // The editor loads the bundle and calls it as any module; both are timed from outside.
    Module._load = function timed(request, ...rest) {
      const [began, before] = [now(), worked()];
      const loaded = load.call(this, request, ...rest);
      if (/languageClient\.cjs$/.test(request)) times.client = now() - began;
      if (path.resolve(request) !== path.resolve(bundle)) return loaded;
      times.load = now() - began;
      times.worked = worked() - before;
      return {
        ...loaded,
        activate(context) {
          const [called, rested] = [now(), worked()];
          const answer = loaded.activate(context);
          times.activate = now() - called;
          times.worked += worked() - rested;
          answer.then(() => {
            times.whole = now() - called;
          });
          return answer;
        },
      };
    };
    try {
      await open('winter/winter.stave');
      await until('activation', () => extension.isActive && times.whole > 0);
    } finally {
      Module._load = load;
    }
    const busy = Math.min(times.load + times.activate, times.worked);
    const ms = (value) => value.toFixed(1);
    console.log(
      `      loading ${ms(times.load)} ms, activating ${ms(times.activate)} ms, worked ${ms(times.worked)} ms; ` +
        `the library for the server, while that starts, ${ms(times.client)} ms; until it has answered ${ms(times.whole)} ms`,
    );
    assert.ok(times.load > 0, 'the bundle was loaded');
    assert.ok(busy < AIM_MS, `${ms(busy)} ms`);
  });

  it('starts by language, command, panel or task alone', () => {
    const { packageJSON } = vscode.extensions.getExtension(EXTENSION);
    const own = (packageJSON.activationEvents ?? []).filter(
      (event) => !/^on(Language|Command|WebviewPanel|TaskType):/.test(event),
    );
    assert.deepEqual(own, []);
  });
});
