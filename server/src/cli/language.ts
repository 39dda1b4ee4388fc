/** The language of the documents that the command line writes. What it says itself is English. */

import { useCatalogue } from '../../../grammar/say.js';
import { type Io, Misuse } from './io.js';

/** English needs no catalogue. Written out in program.ts too, which must not load the engine. */
export const LANGUAGES = ['en', 'de', 'es'] as const;
export type Language = (typeof LANGUAGES)[number];

/** The texts of a language by their English; null for English. Plain data, so that a thread can be handed it. */
export interface Spoken {
  readonly language: Language;
  readonly texts: Readonly<Record<string, string>> | null;
}

export const ENGLISH: Spoken = { language: 'en', texts: null };

/** Reads the texts of a language and takes them for every document from here on. */
export async function speakIn(language: Language, io: Io): Promise<Spoken> {
  const spoken = language === 'en' ? ENGLISH : { language, texts: await textsOf(language, io) };
  take(spoken);
  return spoken;
}

/** For each part of the program that was loaded by itself: it has a copy of the texts of its own. */
export function take({ texts, language }: Spoken): void {
  useCatalogue(texts, language);
}

async function textsOf(language: Language, io: Io): Promise<Readonly<Record<string, string>>> {
  const read = await io.texts?.(language);
  if (read === undefined) throw new Misuse(`The texts in this language are missing: ${language}.`);
  return JSON.parse(read) as Record<string, string>;
}
