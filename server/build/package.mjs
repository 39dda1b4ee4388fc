// Builds everything and packs the extension into dist/stave.vsix.
//
//   node server/build/package.mjs [--built] [--out FILE]     with --built, what dist/ holds is packed
import fs from 'node:fs';
import path from 'node:path';
import { ensurePackages, root, run, tool } from './prepare.mjs';

ensurePackages();
const out = process.argv.indexOf('--out');
const vsix = out < 0 ? path.join(root, 'dist', 'stave.vsix') : path.resolve(process.argv[out + 1]);
const built = process.argv.includes('--built') || run(process.execPath, ['server/build/build.mjs']) === 0;
const code = built
  ? run(process.execPath, [
      tool('@vscode/vsce/vsce'),
      'package',
      '--no-dependencies',
      '--allow-missing-repository',
      // There is no address to put before the links of README.md; they hold inside the package and the repository.
      '--no-rewrite-relative-links',
      '--no-git-tag-version',
      '--no-update-package-json',
      '--out',
      vsix,
    ])
  : 1;
if (code === 0) console.log(`${path.relative(root, vsix)}  ${Math.ceil(fs.statSync(vsix).size / 1024)} kB`);
process.exitCode = code;
