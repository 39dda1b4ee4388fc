import { z } from 'zod';
import { useCatalogue } from '../../../grammar/say.js';
import type { Language } from './languages.js';

const catalogue = z.record(z.string(), z.string());

/** Takes the texts of a language as they are shipped; English where they are missing or damaged. */
export function speak(texts: string | undefined, language: Language): void {
  const read = texts === undefined ? undefined : catalogue.safeParse(parsed(texts));
  useCatalogue(read?.data ?? null, language);
}

function parsed(json: string): unknown {
  try {
    return JSON.parse(json);
  } catch {
    return null;
  }
}
