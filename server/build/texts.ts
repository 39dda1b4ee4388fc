/** Finds the texts that people see in our sources, by the calls that they go through. */
import ts from 'typescript';

/** Keys of `say`, `later` and `filled`, and of counts such as `countOf(weeks, 'week')`. */
export function keysIn(file: string, text: string): string[] {
  return found(file, text, (node) => {
    if (ts.isTaggedTemplateExpression(node) && node.tag.getText() === 'say')
      return [templateKey(node.template)];
    if (!ts.isCallExpression(node)) return [];
    const [first, second, third] = node.arguments;
    switch (node.expression.getText()) {
      case 'say':
      case 'later':
      case 'filled':
        return first && ts.isStringLiteralLike(first) ? [first.text] : [];
      case 'countOf':
      case 'countWords': {
        if (!second || !ts.isStringLiteralLike(second)) return [];
        const many = third && ts.isStringLiteralLike(third) ? third.text : `${second.text}s`;
        return [`{0} ${second.text}`, `{0} ${many}`];
      }
      default:
        return [];
    }
  });
}

/** Keys of `l10n.t` in the client. */
export function windowKeysIn(file: string, text: string): string[] {
  return found(file, text, (node) => {
    if (!ts.isCallExpression(node) || !/\bl10n\.t$/.test(node.expression.getText())) return [];
    const [first] = node.arguments;
    return first && ts.isStringLiteralLike(first) ? [first.text] : [];
  });
}

function templateKey(template: ts.TemplateLiteral): string {
  if (ts.isNoSubstitutionTemplateLiteral(template)) return template.text;
  return template.templateSpans.reduce(
    (key, { literal }, index) => `${key}{${index}}${literal.text}`,
    template.head.text,
  );
}

function found(file: string, text: string, keysOf: (node: ts.Node) => readonly string[]): string[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const keys: string[] = [];
  const visit = (node: ts.Node): void => {
    keys.push(...keysOf(node));
    ts.forEachChild(node, visit);
  };
  visit(source);
  return keys;
}
