import { z } from 'zod';
import {
  DEFAULT_SIGN_OFF,
  DEFAULT_TECHNIQUE_WORDS,
  SIGN_OFF_OPTIONS,
} from '../../src/engine/history/signOffCriteria.js';
import { ruleListMarkdown, ruleMarkdown } from '../../src/engine/ruleReference.js';
import { SETTINGS_FILE, SEVERITY_NAMES, settingsFileShape } from '../../src/engine/ruleSettings.js';
import { RULES } from '../../src/engine/rules/index.js';

/** When sign-offs are offered, with each number and its default, in the editor's settings. */
function signOffSetting(texts: Record<string, string>): object {
  for (const key of Object.keys(texts)) if (key.startsWith('signOff.')) delete texts[key];
  const stages = DEFAULT_SIGN_OFF.map((usual) => {
    const numbers = SIGN_OFF_OPTIONS.map(({ key, least: minimum, most: maximum, what }) => {
      texts[`signOff.${key}`] = `${what}. Common practice, no source.`;
      const description = `%signOff.${key}%`;
      return [key, { type: 'number', minimum, maximum, default: usual[key], description }];
    });
    return [
      usual.stage,
      { type: 'object', additionalProperties: false, properties: Object.fromEntries(numbers) },
    ];
  });
  const words = {
    type: 'array',
    items: { type: 'string' },
    default: DEFAULT_TECHNIQUE_WORDS,
    description: '%signOff.techniqueWords%',
  };
  texts['signOff.techniqueWords'] = 'Words by which a note in a log speaks of technique.';
  return {
    type: 'object',
    default: {},
    scope: 'resource',
    markdownDescription: '%setting.signOff%',
    additionalProperties: false,
    properties: { ...Object.fromEntries(stages), techniqueWords: words },
  };
}

interface Context {
  read(file: string): string;
}

/** The page of each rule, its place in the editor's settings, and the schema of `stave.json`. */
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
    const severity = { type: 'string', enum: SEVERITY_NAMES };
    const description = `%rule.${rule.code}%`;
    const { options = [] } = rule;
    if (options.length === 0) {
      setting.properties[rule.code] = { ...severity, default: rule.severity, description };
      continue;
    }
    const numbers = options.map((option) => {
      const key = `rule.${rule.code}.${option.key}`;
      texts[key] = option.what;
      const { least: minimum, most: maximum, default: usual } = option;
      return [option.key, { type: 'number', minimum, maximum, default: usual, description: `%${key}%` }];
    });
    setting.properties[rule.code] = {
      anyOf: [
        severity,
        {
          type: 'object',
          additionalProperties: false,
          properties: { severity, ...Object.fromEntries(numbers) },
        },
      ],
      default: rule.severity,
      description,
    };
  }
  section.properties['stave.signOff'] = signOffSetting(texts);
  const schemaFile = 'server/rules/stave.schema.json';
  manifest.contributes.jsonValidation = [{ fileMatch: [SETTINGS_FILE], url: `./${schemaFile}` }];
  const schema = z.toJSONSchema(settingsFileShape(), { target: 'draft-7' });
  files[schemaFile] = `${JSON.stringify({ title: 'Rules of Stave', ...schema }, null, 2)}\n`;
  files['package.json'] = `${JSON.stringify(manifest, null, 2)}\n`;
  files['package.nls.json'] = `${JSON.stringify(texts, null, 2)}\n`;
  return files;
}
