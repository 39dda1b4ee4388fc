/** The languages that the server speaks, by their tags. English needs no catalogue. */
const LANGUAGES = ['en', 'de', 'es'] as const;

export type Language = (typeof LANGUAGES)[number];

/** The language for a client's locale, such as `de-AT` or `es_419`; English where it is another one or none. */
export function languageOf(locale: string | undefined): Language {
  const tag = /^[a-z]+/i.exec(locale ?? '')?.[0].toLowerCase();
  return LANGUAGES.find((language) => language === tag) ?? 'en';
}
