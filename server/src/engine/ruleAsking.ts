import type { RuleContext } from './ruleForm.js';
import { mergeSettings, NO_SETTINGS, type RuleSettings } from './ruleSettings.js';
import { RULES } from './rules/index.js';
import type { SessionOptions } from './session.js';

/** The options under which the rules are asked, with the files that they are for; null: for all. */
export interface AskedContext {
  readonly files: ReadonlySet<string> | null;
  readonly context: RuleContext;
}

/** How the rules are asked in the files of a session. Made anew when the options or the set of files changes. */
export class RuleAsking {
  readonly #options: SessionOptions;
  readonly #merged = new Map<RuleSettings, RuleSettings>();
  /** Almost always all files have the same options, and the rules are asked once. */
  readonly contexts: readonly AskedContext[];
  /** Codes of the rules that are off in every file. */
  readonly off: ReadonlySet<string>;

  constructor(options: SessionOptions, files: Iterable<string>) {
    this.#options = options;
    const byOptions = new Map<string, { readonly files: Set<string>; readonly context: RuleContext }>();
    const keys = new Map<RuleSettings, string>();
    const all = options.settingsFor ? [...files] : [];
    for (const file of all) {
      const settings = this.settingsOf(file);
      const key = keys.get(settings) ?? JSON.stringify(settings.options);
      keys.set(settings, key);
      const known = byOptions.get(key);
      if (known) known.files.add(file);
      else byOptions.set(key, { files: new Set([file]), context: this.#context(settings.options) });
    }
    this.contexts = options.settingsFor
      ? [...byOptions.values()]
      : [{ files: null, context: this.#context(options.options ?? {}) }];
    const everySettings = keys.size > 0 ? [...keys.keys()] : [this.settingsOf('')];
    this.off = new Set(
      RULES.filter((rule) =>
        everySettings.every(({ severities }) => (severities[rule.code] ?? rule.severity) === 'off'),
      ).map(({ code }) => code),
    );
  }

  /** What is set for one file. Files with the same settings get the same object. */
  settingsOf(file: string): RuleSettings {
    const { severities, options = {}, signOff, settingsFor } = this.#options;
    const own = settingsFor?.(file) ?? NO_SETTINGS;
    let merged = this.#merged.get(own);
    if (!merged) {
      merged = mergeSettings({ severities, options, ...(signOff ? { signOff } : {}) }, own);
      this.#merged.set(own, merged);
    }
    return merged;
  }

  #context(set: RuleSettings['options']): RuleContext {
    return {
      today: this.#options.today,
      option: (code, option) => set[code]?.[option.key] ?? option.default,
    };
  }
}
