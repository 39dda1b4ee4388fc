import { ruleListMarkdown, ruleMarkdown } from '../../src/engine/ruleReference.js';
import { RULES } from '../../src/engine/rules/index.js';

interface Context {
  read(file: string): string;
}

const words = ['error', 'warning', 'info', 'hint', 'off'];

/** The page of each rule, and its place in the settings. */
export function generate({ read }: Context): Record<string, string> {
  const files: Record<string, string> = { 'server/rules/README.md': ruleListMarkdown(RULES) };
  for (const rule of RULES) files[`server/rules/${rule.code}.md`] = ruleMarkdown(rule);

  const manifest = JSON.parse(read('package.json'));
  const texts: Record<string, string> = JSON.parse(read('package.nls.json'));
  for (const key of Object.keys(texts)) if (key.startsWith('rule.')) delete texts[key];
  const section = manifest.contributes.configuration.find(
    ({ properties }: { properties: object }) => 'stave.rules' in properties,
  );
  const setting = section.properties['stave.rules'];
  setting.properties = {};
  for (const rule of [...RULES].sort((a, b) => (a.code < b.code ? -1 : 1))) {
    texts[`rule.${rule.code}`] = rule.what;
    setting.properties[rule.code] = {
      type: 'string',
      enum: words,
      default: rule.severity,
      description: `%rule.${rule.code}%`,
    };
  }
  files['package.json'] = `${JSON.stringify(manifest, null, 2)}\n`;
  files['package.nls.json'] = `${JSON.stringify(texts, null, 2)}\n`;
  return files;
}
