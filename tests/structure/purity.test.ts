import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { importsIn, importsOf, read, repositoryFiles, target } from './repository.js';

// The grammar and the engine give the same answer on every machine, on every day, in every language. So they may
// not ask what day it is, throw dice, print, or follow the user's locale; "today" is handed to them.

const globals = new Set([
  'process',
  'console',
  'Intl',
  'document',
  'window',
  'globalThis',
  'fetch',
  'require',
]);
const timers = new Set([
  'setTimeout',
  'setInterval',
  'setImmediate',
  'queueMicrotask',
  'performance',
  'crypto',
]);

/** What a pure module may not do, as "line: what", found in the syntax tree so that words in comments are free. */
function impurities(file: string, text: string): string[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const found: string[] = [];
  const note = (node: ts.Node, what: string): void => {
    const { line } = source.getLineAndCharacterOfPosition(node.getStart());
    found.push(`${line + 1}: ${what}`);
  };
  const own = declaredNames(source);
  const visit = (node: ts.Node): void => {
    if (ts.isPropertyAccessExpression(node)) {
      const whole = `${node.expression.getText()}.${node.name.text}`;
      if (/^toLocale/.test(node.name.text) || node.name.text === 'localeCompare') note(node, whole);
      if (whole === 'Math.random') note(node, whole);
      if (/^Temporal\.Now\b/.test(whole)) note(node, whole);
    }
    // Types may name anything; only values are looked at.
    if (
      ts.isIdentifier(node) &&
      !own.has(node.text) &&
      !ts.isTypeNode(node.parent) &&
      standsForItself(node)
    ) {
      if (node.text === 'Date' || globals.has(node.text) || timers.has(node.text)) note(node, node.text);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** The names that a file gives to things of its own: a `window` of four weeks is not the browser's. */
function declaredNames(source: ts.SourceFile): Set<string> {
  const names = new Set<string>();
  const visit = (node: ts.Node): void => {
    const declares =
      ts.isVariableDeclaration(node) ||
      ts.isParameter(node) ||
      ts.isBindingElement(node) ||
      ts.isFunctionDeclaration(node) ||
      ts.isImportSpecifier(node);
    if (declares && node.name && ts.isIdentifier(node.name)) names.add(node.name.text);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return names;
}

/** Whether an identifier is used as a value of that name, not as a property, a declaration or a member's name. */
function standsForItself(node: ts.Identifier): boolean {
  const { parent } = node;
  if (ts.isPropertyAccessExpression(parent)) return parent.expression === node;
  if (ts.isPropertyAssignment(parent)) return parent.initializer === node;
  if (ts.isBindingElement(parent)) return false;
  if (ts.isPropertySignature(parent) || ts.isPropertyDeclaration(parent)) return false;
  if (ts.isParameter(parent) || ts.isVariableDeclaration(parent)) return parent.initializer === node;
  if (ts.isQualifiedName(parent) || ts.isImportSpecifier(parent) || ts.isExportSpecifier(parent))
    return false;
  return !(ts.isMethodDeclaration(parent) || ts.isFunctionDeclaration(parent) || ts.isEnumMember(parent));
}

/** Packages that a pure module may use: they are pure themselves. */
const pureModules = new Set([
  ...['chevrotain', 'temporal-polyfill', 'fastest-levenshtein', 'zod', 'string-width', 'diff'],
  ...['preact', 'preact/jsx-runtime', 'preact-render-to-string'],
  // Tables of text, and the arithmetic of charts.
  ...['papaparse', 'd3-scale', 'd3-shape'],
  // Types only: what a document for pdfmake looks like, not what writes it.
  'pdfmake/interfaces.js',
  'pdfmake/interfaces',
]);

const pureFiles = repositoryFiles().filter(
  (file) => /^(grammar|server\/src\/engine)\/.*\.tsx?$/.test(file) && !file.endsWith('.d.ts'),
);

describe('the grammar and the engine are pure', () => {
  it('are there to be looked at', () => {
    expect(pureFiles.some((file) => file.startsWith('grammar/'))).toBe(true);
    expect(pureFiles.some((file) => file.startsWith('server/src/engine/'))).toBe(true);
  });

  it.each(pureFiles)('%s uses no clock, no chance, no locale, no platform', (file) => {
    expect(impurities(file, read(file))).toEqual([]);
  });

  it.each(pureFiles)('%s imports pure modules only', (file) => {
    const outside = importsOf(file).filter((name) => {
      const to = target(file, name);
      return !(/^(grammar|server\/src\/engine)\//.test(to) || pureModules.has(name));
    });
    expect(outside).toEqual([]);
  });

  it('would notice', () => {
    const text = [
      'import fs from "node:fs";',
      'const a = Date.now();',
      'const b = new Date();',
      'const c = Math.random();',
      'const d = (1).toLocaleString();',
      'console.log(process.env);',
      'const e = new Intl.NumberFormat();',
      'const f = await import("vscode");',
      'const fine = { date: 1, console: 2 }.console; // Date.now() in a comment',
    ].join('\n');
    expect(impurities('x.ts', text)).toEqual([
      '2: Date',
      '3: Date',
      '4: Math.random',
      '5: (1).toLocaleString',
      '6: console',
      '6: process',
      '7: Intl',
    ]);
    expect(importsIn('x.ts', text)).toEqual(['node:fs', 'vscode']);
  });
});
