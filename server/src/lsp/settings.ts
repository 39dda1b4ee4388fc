import { z } from 'zod';
import { readSignOff } from '../engine/history/signOffCriteria.js';
import { type RuleSettings, readRuleSettings } from '../engine/ruleSettings.js';

/**
 * The settings of one folder, as the client sends them. Whatever is missing or makes no sense has its default:
 * a slip in the settings must not take the server down, nor silence a warning.
 */
const settingsShape = z.object({
  hints: z
    .object({
      loads: z.boolean().catch(true),
      reserve: z.boolean().catch(false),
      plates: z.boolean().catch(false),
      share: z.boolean().catch(false),
      deload: z.boolean().catch(false),
      align: z.boolean().catch(true),
    })
    .catch({ loads: true, reserve: false, plates: false, share: false, deload: false, align: true }),
  lenses: z
    .object({
      programs: z.boolean().catch(true),
      clients: z.boolean().catch(true),
      kits: z.boolean().catch(true),
    })
    .catch({ programs: true, clients: true, kits: true }),
  table: z.object({ alignOnEnter: z.boolean().catch(true) }).catch({ alignOnEnter: true }),
  rules: z.record(z.string(), z.unknown()).catch({}),
  signOff: z.record(z.string(), z.unknown()).catch({}),
  plan: z
    .object({
      folder: z.string().trim().min(1).catch('plans'),
      formats: z
        .array(z.enum(['html', 'pdf']))
        .min(1)
        .catch(['html', 'pdf']),
      size: z.enum(['a4', 'letter']).catch('a4'),
    })
    .catch({ folder: 'plans', formats: ['html', 'pdf'], size: 'a4' }),
  /** The client whose loads are shown; null: nobody was chosen. */
  client: z.string().nullable().catch(null),
});

export interface Settings {
  readonly hints: {
    readonly loads: boolean;
    readonly reserve: boolean;
    readonly plates: boolean;
    readonly share: boolean;
    readonly deload: boolean;
    readonly align: boolean;
  };
  readonly lenses: { readonly programs: boolean; readonly clients: boolean; readonly kits: boolean };
  readonly table: { readonly alignOnEnter: boolean };
  readonly rules: RuleSettings;
  readonly plan: {
    readonly folder: string;
    readonly formats: readonly ('html' | 'pdf')[];
    /** The paper of every document. */
    readonly size: 'a4' | 'letter';
  };
  readonly client: string | null;
}

/** Reads settings from outside. Never throws. */
export function readSettings(value: unknown): Settings {
  const read = settingsShape.safeParse(value).data ?? settingsShape.parse({});
  return {
    hints: read.hints,
    lenses: read.lenses,
    table: read.table,
    rules: { ...readRuleSettings(read.rules).settings, ...signOffOf(read.signOff) },
    plan: read.plan,
    client: read.client,
  };
}

function signOffOf(value: unknown): Pick<RuleSettings, 'signOff'> {
  const { settings } = readSignOff(value);
  return Object.keys(settings).length > 0 ? { signOff: settings } : {};
}
