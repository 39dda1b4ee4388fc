// A fence of the notation in a Markdown file, as in the README of a practice.
const vscode = require('vscode');
const { itInWindow, picture, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const CONTENT = `# Our notation

\`\`\`stave
program Draft
block Keel, 4 weeks, heavy
day Lower
  back squat: 3x6 r2 | 4x -- easy
\`\`\`

Plain words: 3x6 r2.
`;

describe('a fence in Markdown', function () {
  this.timeout(60_000);

  afterEach(() => run('workbench.action.revertAndCloseActiveEditor'));

  itInWindow('is coloured as the notation, and the words around it are not', async () => {
    const document = await vscode.workspace.openTextDocument({ language: 'markdown', content: CONTENT });
    const editor = await vscode.window.showTextDocument(document, { preview: false });
    const scopesAt = async (piece, plus = 1) => {
      const at = document.positionAt(CONTENT.indexOf(piece) + plus);
      editor.selection = new vscode.Selection(at, at);
      await run('workbench.action.focusActiveEditorGroup');
      await run('editor.action.inspectTMScopes');
      const found = await until(`what ${piece} is`, async () => {
        const text = (await workbench.text('.token-inspect-widget')).join('\n');
        return text.includes('text.html.markdown') && text;
      });
      await workbench.press('Escape');
      await until('no widget', async () => (await workbench.text('.token-inspect-widget')).length === 0);
      return found;
    };
    const inside = (scopes) => scopes.includes('meta.embedded.block.stave');
    const opener = await scopesAt('program Draft');
    if (!inside(opener) || !/keyword\.\S*stave/.test(opener)) throw new Error(`the opener is ${opener}`);
    const dose = await scopesAt('3x6 r2');
    if (!inside(dose) || !/constant\.numeric\S*stave/.test(dose)) throw new Error(`the cell is ${dose}`);
    const note = await scopesAt('-- easy', 3);
    if (!inside(note) || !/comment\.\S*stave/.test(note)) throw new Error(`the note is ${note}`);
    const words = await scopesAt('Plain words', 14);
    if (inside(words)) throw new Error(`the words behind the fence are ${words}`);
    await picture('markdown-fence');
  });
});
