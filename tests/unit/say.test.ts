/** The texts of people's languages: found by their English, with the values where the other language wants them. */

import { afterEach, describe, expect, it } from 'vitest';
import { parse } from '../../grammar/index.js';
import { later, plural, said, say, textLanguage, useCatalogue } from '../../grammar/say.js';

afterEach(() => useCatalogue(null));

const greeting = (name: string, days: number): string => say`${name} is away for ${days} days.`;

describe('a text', () => {
  it('is its English without a catalogue', () => {
    expect(greeting('Heron', 3)).toBe('Heron is away for 3 days.');
    expect(say('Leave it out')).toBe('Leave it out');
    expect(textLanguage()).toBe('en');
  });

  it('is that of the catalogue, with the values in its order', () => {
    expect(greeting('Heron', 3)).toBe('Heron is away for 3 days.');
    useCatalogue({ '{0} is away for {1} days.': '{1} Tage ist {0} weg.', 'Leave it out': 'Weglassen' }, 'de');
    expect(greeting('Heron', 3)).toBe('3 Tage ist Heron weg.');
    expect(say('Leave it out')).toBe('Weglassen');
    expect(textLanguage()).toBe('de');
  });

  it('stays English where the catalogue lacks it', () => {
    useCatalogue({}, 'de');
    expect(greeting('Heron', 3)).toBe('Heron is away for 3 days.');
    expect(say('constructor')).toBe('constructor');
  });

  it('takes values as they are, also those that look like places for values', () => {
    useCatalogue({ '{0} is away for {1} days.': '{1}: {0}' }, 'de');
    expect(greeting('{1} $& \\', 3)).toBe('3: {1} $& \\');
  });

  it('of a table that is made early is looked up late', () => {
    const titles = { rest: later('the rest') };
    useCatalogue({ 'the rest': 'die Pause' }, 'de');
    expect(said(titles.rest)).toBe('die Pause');
  });

  it('has two forms for a number of things', () => {
    const weeks = (count: number): string => plural(count, say`${count} week`, say`${count} weeks`);
    expect([0, 1, 1.5, 2].map(weeks)).toEqual(['0 weeks', '1 week', '1.5 weeks', '2 weeks']);
    useCatalogue({ '{0} week': '{0} Woche', '{0} weeks': '{0} Wochen' }, 'de');
    expect([1, 2].map(weeks)).toEqual(['1 Woche', '2 Wochen']);
  });
});

it('a mistake is told in the language of the catalogue, and what it finds is the same', () => {
  const text = 'program P\nblock B, 4 weeks, load\nday Lower\n  back squat: 3 x 6 r2\n';
  const english = parse(text).problems;
  useCatalogue({ '{0} has a space inside. Write it as one: `{1}`.': '{0}: ohne Leerzeichen, `{1}`.' }, 'de');
  const german = parse(text).problems;
  expect(german.map(({ message }) => message)).toEqual(['`3 x 6`: ohne Leerzeichen, `3x6`.']);
  const facts = (problems: typeof english) =>
    problems.map(({ code, span, fixes }) => [code, span, fixes.map(({ edits }) => edits)]);
  expect(facts(german)).toEqual(facts(english));
});
