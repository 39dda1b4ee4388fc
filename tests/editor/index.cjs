// The test entry in the extension host: runs all suites in tests/editor/suites/, or in the folder beside it that
// STAVE_EDITOR_SUITES names, with mocha and writes the counts to the file that STAVE_EDITOR_REPORT names.
const fs = require('node:fs');
const path = require('node:path');
const Mocha = require('mocha');

exports.run = () =>
  new Promise((resolve, reject) => {
    const mocha = new Mocha({ ui: 'bdd', color: false, timeout: 30_000, reporter: 'spec', forbidOnly: true });
    const suites = path.join(__dirname, process.env.STAVE_EDITOR_SUITES ?? 'suites');
    const only = process.env.STAVE_EDITOR_ONLY ?? '';
    const files = fs.readdirSync(suites).filter((file) => file.endsWith('.cjs') && file.includes(only));
    for (const file of files.sort()) mocha.addFile(path.join(suites, file));
    const runner = mocha.run((failures) => {
      const { passes, pending } = runner.stats;
      const report = process.env.STAVE_EDITOR_REPORT;
      // Failures of hooks are in `failures` too.
      if (report) fs.writeFileSync(report, JSON.stringify({ passes, failures, pending }));
      if (failures > 0) reject(new Error(`${failures} test(s) failed`));
      else if (passes === 0) reject(new Error('no test ran'));
      else resolve();
    });
  });
