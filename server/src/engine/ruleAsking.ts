import { DEFAULT_LIMITS, type MaxLimits, maxLimitsUnder } from './resolve/limits.js';
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
  readonly #limits: Map<string, MaxLimits>;
  /** Asked for each client after every keystroke. */
  readonly #limitsByFile = new Map<string, MaxLimits>();
  /** Almost always all files have the same options, and the rules are asked once. */
  readonly contexts: readonly AskedContext[];
  /** Codes of the rules that are off in every file. */
  readonly off: ReadonlySet<string>;

  /** `limits` are those that were given out before, so that clients stay the same while theirs do. */
  constructor(options: SessionOptions, files: Iterable<string>, limits = new Map<string, MaxLimits>()) {
    this.#options = options;
    this.#limits = limits;
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

  /** The numbers that are set for one file. */
  contextOf(file: string): RuleContext {
    return this.#context(this.settingsOf(file).options);
  }

  /** Limits of maxes that are set for one file. The same settings give the same object. */
  limitsOf(file: string): MaxLimits {
    let limits = this.#limitsByFile.get(file);
    if (!limits) {
      limits = this.#one(maxLimitsUnder(this.settingsOf(file).options));
      this.#limitsByFile.set(file, limits);
    }
    return limits;
  }

  #one(limits: MaxLimits): MaxLimits {
    if (limits === DEFAULT_LIMITS) return limits;
    const key = JSON.stringify(limits);
    const known = this.#limits.get(key) ?? limits;
    this.#limits.set(key, known);
    return known;
  }

  #context(set: RuleSettings['options']): RuleContext {
    return {
      today: this.#options.today,
      option: (code, option) => set[code]?.[option.key] ?? option.default,
    };
  }
}
