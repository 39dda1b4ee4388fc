import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

/** The repository's root folder. */
export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..', '..');

/** All files that are tracked or would be: what a commit of everything would hold, as paths from the root. */
export function repositoryFiles(): string[] {
  const out = execFileSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
    cwd: root,
    encoding: 'utf8',
  });
  return out.split('\0').filter((file) => file !== '' && fs.existsSync(path.join(root, file)));
}

/** The text of a file, by its path from the root. */
export const read = (file: string): string => fs.readFileSync(path.join(root, file), 'utf8');

/** The modules that a TypeScript file names: static and dynamic imports, re-exports, and require calls. */
export function importsOf(file: string): string[] {
  return importsIn(file, read(file));
}

/** As importsOf, for text that is in no file. */
export function importsIn(file: string, text: string): string[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const names: string[] = [];
  const visit = (node: ts.Node): void => {
    if (
      (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) &&
      node.moduleSpecifier &&
      ts.isStringLiteral(node.moduleSpecifier)
    ) {
      names.push(node.moduleSpecifier.text);
    }
    if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) {
      if (ts.isStringLiteral(node.argument.literal)) names.push(node.argument.literal.text);
    }
    if (ts.isCallExpression(node)) {
      const [first] = node.arguments;
      const loads =
        node.expression.kind === ts.SyntaxKind.ImportKeyword ||
        (ts.isIdentifier(node.expression) && node.expression.text === 'require');
      if (loads && first && ts.isStringLiteralLike(first)) names.push(first.text);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return names;
}

/** Where an import leads: a path from the root for a relative one, else the module's name as written. */
export function target(file: string, name: string): string {
  return name.startsWith('.') ? path.posix.normalize(path.posix.join(path.posix.dirname(file), name)) : name;
}
