import type { Rule } from '../ruleForm.js';

/** Found by `unusedAllows`, which alone knows what every client's plan has used; here is what the page says. */
export const unusedAllow: Rule = {
  code: 'unused-allow',
  title: 'An allow line that silences nothing',
  severity: 'warning',
  what: 'A line "allow: CODE" where nobody has a finding of that code any more, or where no rule has that code.',
  why: 'An old permission silences the next finding of its kind as well, one that nobody has looked at.',
  source: 'Common practice, no source.',
  example: `kit Boathouse
  bar: 15kg

client Wren
  trains at: Boathouse
  allow: heavy-early "knows the lift from before"
`,
  better: `kit Boathouse
  bar: 15kg

client Wren
  trains at: Boathouse
`,
  fix: 'Take the line away, or correct the code. The quick fix takes it away.',
};
