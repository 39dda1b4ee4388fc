import { describe, expect, it } from 'vitest';
import { RULES } from '../../server/src/engine/rules/index.js';
import { SEMANTIC_TOKEN_TYPES } from '../../server/src/engine/views/semanticTokens.js';
import { semanticTokenTypes } from '../../server/src/lsp/legend.js';
import { readSettings } from '../../server/src/lsp/settings.js';
import { localToday } from '../../server/src/lsp/today.js';
import { canonicalUri, isInside } from '../../server/src/lsp/uris.js';
import { read } from '../structure/repository.js';

describe('addresses', () => {
  it.each([
    ['file:///c:/a b/x.stave', 'file:///c%3A/a%20b/x.stave'],
    ['file:///C%3A/a%20b/x.stave', 'file:///c%3A/a%20b/x.stave'],
    ['file:///home/%28a%29/x.stave', 'file:///home/(a)/x.stave'],
    ['file:///home/(a)/x.stave', 'file:///home/(a)/x.stave'],
    ['file:///100%/x.stave', 'file:///100%25/x.stave'],
    ['untitled:Untitled-1', 'untitled:Untitled-1'],
  ])('%s and its other spellings are one', (uri, canonical) => {
    expect(canonicalUri(uri)).toBe(canonical);
    expect(canonicalUri(canonical)).toBe(canonical);
  });

  it('a folder holds what is below it, not what begins like it', () => {
    expect(isInside('file:///a/b/c.stave', 'file:///a/b')).toBe(true);
    expect(isInside('file:///a/bc.stave', 'file:///a/b')).toBe(false);
    expect(isInside('file:///a/b', 'file:///a/b')).toBe(false);
    expect(isInside('file:///a/b.stave', 'file:///')).toBe(true);
  });
});

describe('settings from outside', () => {
  const defaults = readSettings(undefined);

  it('have defaults', () => {
    expect(defaults).toEqual({
      hints: { loads: true, reserve: false, plates: false, share: false, deload: false, align: true },
      lenses: { programs: true, clients: true, kits: true },
      table: { alignOnEnter: true },
      rules: { severities: {}, options: {} },
      plan: { folder: 'plans', formats: ['html', 'pdf'], size: 'a4' },
      client: null,
    });
  });

  it.each([[null], [7], ['text'], [[]], [{ hints: 3, rules: 'x', plan: [], client: 4 }]])(
    'that make no sense (%j) are the defaults',
    (value) => expect(readSettings(value)).toEqual(defaults),
  );

  it('keep what makes sense beside what does not', () => {
    const read = readSettings({
      hints: { loads: 'yes', plates: true },
      rules: {
        stuck: 'off',
        'heavy-early': 'never',
        'jump-load': { severity: 'info', maxPercent: 5 },
        'rest-short': { minSeconds: -1 },
      },
      signOff: { heavy: { sessions: 60, weeks: -1 }, load: 3 },
      plan: { folder: ' ', formats: [] },
      client: 'heron',
    });
    expect(read.hints).toEqual({
      loads: true,
      reserve: false,
      plates: true,
      share: false,
      deload: false,
      align: true,
    });
    expect(read.rules.signOff).toEqual({ heavy: { sessions: 60 } });
    expect(read.rules.severities).toEqual({ stuck: 'off', 'jump-load': 'info' });
    expect(read.rules.options).toEqual({ 'jump-load': { maxPercent: 5 } });
    expect(read.plan).toEqual(defaults.plan);
    expect(read.client).toBe('heron');
  });
});

describe('the manifest', () => {
  const manifest = JSON.parse(read('package.json'));
  const texts: Record<string, string> = JSON.parse(read('package.nls.json'));
  const properties: Record<string, { default?: unknown }> = Object.assign(
    {},
    ...manifest.contributes.configuration.map((section: { properties: object }) => section.properties),
  );

  it('has a text for every place that names one, and no other texts', () => {
    const named = [...JSON.stringify(manifest).matchAll(/"%([\w.-]+)%"/g)].map(([, key]) => key);
    expect([...new Set(named)].sort()).toEqual(Object.keys(texts).sort());
  });

  it('says the same defaults as the server', () => {
    const { hints, plan, lenses, table } = readSettings({});
    for (const [group, values] of Object.entries({ hints, plan, lenses, table })) {
      for (const [name, value] of Object.entries(values)) {
        expect(properties[`stave.${group}.${name}`]?.default, `stave.${group}.${name}`).toEqual(value);
      }
    }
  });

  it('describes every setting and scopes it to a folder', () => {
    for (const [name, property] of Object.entries(properties)) {
      expect(property, name).toMatchObject({
        markdownDescription: expect.stringMatching(/^%.*%$/),
        scope: name === 'stave.trace.server' ? 'window' : 'resource',
      });
    }
  });

  it('has a severity for every rule', () => {
    const rules = properties['stave.rules'] as unknown as { properties: Record<string, { default: string }> };
    const said = Object.entries(rules.properties).map(([code, { default: severity }]) => [code, severity]);
    expect(said.sort()).toEqual(RULES.map(({ code, severity }) => [code, severity]).sort());
  });

  it('registers every command that it offers', () => {
    const source = ['extension', 'writing'].map((name) => read(`client/src/${name}.ts`)).join('\n');
    for (const { command } of manifest.contributes.commands) expect(source).toContain(`'${command}'`);
  });
});

describe('the rest', () => {
  it('the greeting names the kinds of coloured text that the engine knows', () => {
    expect(semanticTokenTypes).toEqual(SEMANTIC_TOKEN_TYPES);
  });

  it('today is the date on the clock of the machine', () => {
    expect(localToday(new Date(2026, 0, 5, 23, 59))).toBe('2026-01-05');
    expect(localToday(new Date(2026, 11, 31, 0, 0))).toBe('2026-12-31');
  });
});
