// The engine alone, in a process of its own: opens the workspace, then types in a program file. Prints its
// measurements as JSON. Run by bench.mjs with the bundled engine as its first argument.
import { performance } from 'node:perf_hooks';
import { pathToFileURL } from 'node:url';
import { benchWorkspace, keystrokes } from './benchWorkspace.mjs';

const { createSession, inlayHints, formatText, hover, refactorings } = await import(
  pathToFileURL(process.argv[2]).href
);
const strokes = Number(process.argv[3] ?? 60);
const files = benchWorkspace();
const today = '2026-03-02';
const hintOptions = { clientKey: null, loads: true, reserve: false, plates: false };
const timed = (work) => {
  const began = performance.now();
  const result = work();
  return [performance.now() - began, result];
};

const heapBefore = process.memoryUsage().rss;
const [parseMs, session] = timed(() => {
  const made = createSession({ today, severities: {} });
  for (const [file, text] of files) made.setFile(file, text);
  return made;
});
const [bindMs] = timed(() => session.world());
const [findingsMs, findings] = timed(() => session.allFindings());
const { user, system } = process.cpuUsage();
const rssOpen = process.memoryUsage().rss;

const file = 'program-0.stave';
const text = files.get(file);
const keystrokeMs = [];
for (const { offset, typed } of keystrokes(text, strokes)) {
  for (const next of [text.slice(0, offset) + typed + text.slice(offset + 1), text]) {
    const [ms] = timed(() => {
      session.setFile(file, next);
      session.findings(file);
      inlayHints(session, file, { start: 0, end: next.length }, hintOptions);
    });
    keystrokeMs.push(ms);
  }
}
const hoverMs = keystrokes(text, 20).map(({ offset }) => timed(() => hover(session, file, offset))[0]);
const formatMs = Array.from({ length: 10 }, () => timed(() => formatText(text))[0]);
// Every refactoring that is offered on a row, a block and a day, built anew as for a menu.
const refactorMs = ['3x8 r3', 'block Block 2', 'day Upper', '4x5 75%'].flatMap((piece) => {
  const asked = { session, file, offset: text.indexOf(piece) + 2, clientKey: 'client 0', today };
  return refactorings(asked).map(({ build }) => timed(build)[0]);
});
const cells = [...files.keys()].reduce((sum, name) => sum + session.cellsIn(name).length, 0);
const codes = {};
for (const { code } of findings) codes[code] = (codes[code] ?? 0) + 1;
console.log(
  JSON.stringify({
    coldMs: parseMs + bindMs + findingsMs,
    coldCpuMs: (user + system) / 1000,
    parseMs,
    bindMs,
    findingsMs,
    cells,
    codes,
    keystrokeMs,
    hoverMs,
    formatMs,
    refactorMs,
    rssBefore: heapBefore,
    rssOpen,
    rssPeak: process.resourceUsage().maxRSS * 1024,
  }),
);
