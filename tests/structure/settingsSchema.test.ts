/** The editor knows what may stand in a `stave.json`: the schema is shipped, and it says what the reader takes. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { DEFAULT_SIGN_OFF, SIGN_OFF_OPTIONS } from '../../server/src/engine/history/signOffCriteria.js';
import { readSettingsFile } from '../../server/src/engine/ruleSettings.js';
import { RULES } from '../../server/src/engine/rules/index.js';
import { read, root } from './repository.js';

const manifest = JSON.parse(read('package.json'));
const [validation] = manifest.contributes.jsonValidation;
const schema = JSON.parse(readFileSync(join(root, validation.url), 'utf8'));

describe('the schema of stave.json', () => {
  it('is given for files of that name, wherever they lie', () => {
    expect(validation.fileMatch).toEqual(['stave.json']);
    expect(schema.properties.rules).toBeDefined();
  });

  it('has every rule with its numbers, and takes nothing else', () => {
    const { properties, additionalProperties } = schema.properties.rules;
    expect(additionalProperties).toBe(false);
    expect(Object.keys(properties).sort()).toEqual(RULES.map(({ code }) => code).sort());
    for (const { code, options = [] } of RULES) {
      const text = JSON.stringify(properties[code]);
      for (const { key, least, most } of options) {
        expect(text, `${code} ${key}`).toContain(`"${key}"`);
        expect(text).toContain(`"minimum":${least}`);
        expect(text).toContain(`"maximum":${most}`);
      }
    }
  });

  it('has the criteria of the sign-offs with their numbers, the same as the editor', () => {
    const setting = manifest.contributes.configuration.flatMap(
      ({ properties }: { properties: Record<string, unknown> }) => properties['stave.signOff'] ?? [],
    )[0];
    const own = schema.properties.signOff;
    expect(own.additionalProperties).toBe(false);
    expect(Object.keys(own.properties).sort()).toEqual(Object.keys(setting.properties).sort());
    for (const { stage, ...usual } of DEFAULT_SIGN_OFF) {
      for (const { key, least, most } of SIGN_OFF_OPTIONS) {
        expect(own.properties[stage].properties[key]).toMatchObject({ minimum: least, maximum: most });
        expect(own.properties[stage].properties[key].description).toMatch(/common practice, no source/);
        expect(setting.properties[stage].properties[key]).toMatchObject({
          minimum: least,
          maximum: most,
          default: usual[key],
        });
      }
    }
  });

  it.each([
    ['{ "rules": { "stuck": "off", } }', 'not JSON'],
    ['[]', 'begin with {'],
    ['{ "stuck": "off" }', 'outside of "rules"'],
    ['{ "rules": { "stuk": "off" } }', 'Did you mean "stuck"?'],
    ['{ "rules": { "stuck": "loud" } }', 'cannot have the severity'],
    ['{ "rules": { "rest-short": { "minSeconds": 5 } } }', 'number from 30 to 600'],
  ])('what it does not take is told in words: %s', (text, words) => {
    expect(readSettingsFile(text).problems.join(' ')).toContain(words);
  });
});
