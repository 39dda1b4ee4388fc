import { TOKEN_SPECS } from '../../../grammar/tokens.js';

// The colours that an editor shows before the language server answers, and where there is none. What a word is
// comes from the token list of the language; only the shape of whole lines is added here.

interface Rule {
  match: string;
  name?: string;
  captures?: Record<string, { name: string }>;
}

const OPENERS = 'kit|movement|client|group|program|block|day|circuit|log';
/** Where a word can begin. */
const WORD = '(?<![^\\s,|;":])';
/** The rest of a line up to a note has no colon: then the line opens something. */
const NO_COLON = '(?!(?:(?!\\s--(?:\\s|$))[^:"])*:)';
const NAME = '(?:(?!\\s--(?:\\s|$))[^:,|;"])+';

const lines: Rule[] = [
  { match: '(?:^|(?<=\\s))--(?=\\s|$).*$', name: 'comment.line.double-dash' },
  {
    match: `(?i)^\\s*${NO_COLON}(${OPENERS})\\s+(${NAME})`,
    captures: { 1: { name: 'keyword.control.section' }, 2: { name: 'entity.name.section' } },
  },
  { match: '(?i)^\\s*(end)(?=\\s*$|\\s+--)', captures: { 1: { name: 'keyword.control.section' } } },
  {
    match: `^\\s*(?!--\\s)(${NAME}?)\\s*(:)`,
    captures: { 1: { name: 'entity.name.tag' }, 2: { name: 'punctuation.separator.label' } },
  },
];

/** `back` is a keyword in `back at 80%` only; elsewhere it is half of the name of a movement. */
const following: Record<string, string> = { Back: '(?=\\s+at(?=\\s))' };

function words(): Rule[] {
  return TOKEN_SPECS.flatMap(({ name, source, scope, inName }) => {
    if (scope === null) return [];
    const start = inName || name === 'DecimalComma' ? WORD : '';
    return [{ match: `(?i)${start}(?:${source})${following[name] ?? ''}`, name: scope }];
  });
}

/** Scopes end with the language's name, so that a theme can tell them from those of others. */
function suffixed(rule: Rule): Rule {
  const captures = Object.entries(rule.captures ?? {}).map(
    ([group, { name }]) => [group, { name: `${name}.stave` }] as const,
  );
  return {
    match: rule.match,
    ...(rule.name ? { name: `${rule.name}.stave` } : {}),
    ...(captures.length > 0 ? { captures: Object.fromEntries(captures) } : {}),
  };
}

/** Colours a block of Markdown that is fenced with ```stave. */
const markdown = {
  scopeName: 'markdown.stave.codeblock',
  injectionSelector: 'L:text.html.markdown',
  patterns: [{ include: '#fenced' }],
  repository: {
    fenced: {
      begin: '(^|\\G)(\\s*)(`{3,}|~{3,})\\s*(?i:stave)(?=[\\s,{:]|$)[^`]*$',
      beginCaptures: { 3: { name: 'punctuation.definition.markdown' } },
      end: '(^|\\G)(\\2|\\s{0,3})(\\3)\\s*$',
      endCaptures: { 3: { name: 'punctuation.definition.markdown' } },
      name: 'markup.fenced_code.block.markdown',
      patterns: [
        {
          begin: '(^|\\G)(\\s*)(.*)',
          while: '(^|\\G)(?!\\s*([`~]{3,})\\s*$)',
          contentName: 'meta.embedded.block.stave',
          patterns: [{ include: 'source.stave' }],
        },
      ],
    },
  },
};

/** The TextMate grammars: of the language, from the token list, and of the language inside Markdown. */
export function generate(): Record<string, string> {
  const note = ['Made by server/build/generators/textmate.ts: npm run generate.'];
  const grammar = {
    information_for_contributors: note,
    name: 'Stave',
    scopeName: 'source.stave',
    fileTypes: ['stave'],
    patterns: [...lines, ...words()].map(suffixed),
  };
  return {
    'grammar/stave.tmLanguage.json': JSON.stringify(grammar, null, 2),
    'grammar/markdown.tmLanguage.json': JSON.stringify(
      { information_for_contributors: note, ...markdown },
      null,
      2,
    ),
  };
}
