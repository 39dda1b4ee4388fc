/** Every published value of the reference page, each with its source and tolerance beside it. */

import { describe, expect, it } from 'vitest';
import { DEPARTURES } from '../../server/reference/departures.js';
import { differenceOf } from '../../server/reference/publishedValue.js';
import { PUBLISHED_VALUES } from '../../server/reference/publishedValues.js';
import { read, repositoryFiles } from '../structure/repository.js';

const topics = [...new Set(PUBLISHED_VALUES.map(({ topic }) => topic))];

describe.each(topics)('%s', (topic) => {
  it.each(PUBLISHED_VALUES.filter((value) => value.topic === topic))(
    '$what: $published ($source)',
    (value) => {
      expect(Number.isFinite(value.own)).toBe(true);
      expect(Math.abs(differenceOf(value))).toBeLessThanOrEqual(value.tolerance + 1e-12);
    },
  );
});

describe('the files of the sources', () => {
  const files = repositoryFiles().filter((file) => /^tests\/outside\/[^/]+\.test\.ts$/.test(file));
  it.each(files.filter((file) => !file.endsWith('published.test.ts')))(
    '%s says at its top what it compares with, and how closely',
    (file) => {
      const top = read(file).split('*/')[0] ?? '';
      expect(top).toMatch(/^\/\*\*/);
      expect(top).toMatch(/[Tt]olerance/);
      expect(top.length).toBeGreaterThan(60);
    },
  );

  it.each([
    ...['epley1985', 'brzycki1993', 'lombardi1989', 'mayhew1992', 'oconner1989', 'wathan1994', 'kemmler2006'],
    ...[
      'cubic2024',
      'reynolds2006',
      'nscaLoadChart',
      'nscaEssentials',
      'nscaTesting',
      'twoForTwo',
      'prilepin',
    ],
    ...[
      'acsm2009',
      'acsm2011',
      'acsm2026',
      'fragala2019',
      'riebe2015',
      'rogerson2024',
      'liftmor2018',
      'powir2013',
    ],
    ...['zourdos2016', 'halperin2022', 'hackett2017', 'foster1998', 'williams2017', 'gabbett2016'],
    ...[
      'tabata1996',
      'hazell2010',
      'metcalfe2012',
      'boutcher2019',
      'gibalaModel',
      'competitionBars',
      'davis',
      'nhanes',
      'detraining',
    ],
  ])('%s has one', (source) => {
    expect(files).toContain(`tests/outside/${source}.test.ts`);
  });
});

describe('the reference page', () => {
  const page = read('server/reference/values.md');
  it('shows each of them', () => {
    const rows = page.split('\n').filter((line) => line.startsWith('| ') && !/^\| (what|---)/.test(line));
    expect(rows).toHaveLength(PUBLISHED_VALUES.length + DEPARTURES.length);
    expect(PUBLISHED_VALUES.length).toBeGreaterThan(300);
  });

  it('gives a reason and a source for each value that is departed from', () => {
    expect(DEPARTURES.length).toBeGreaterThan(30);
    for (const { what, published, own, why, source } of DEPARTURES) {
      expect(page, what).toContain(`| ${what} | ${published} | ${own} | ${why} | ${source} |`);
      expect(own, what).not.toMatch(/NaN|undefined|Infinity/);
      expect(why.length, what).toBeGreaterThan(20);
      expect(source.length, what).toBeGreaterThan(8);
      expect(own, what).not.toBe(published);
    }
  });

  it('names a source and a tolerance that could fail for each', () => {
    for (const { source, tolerance, toleranceIs, published, what } of PUBLISHED_VALUES) {
      expect(source.length, what).toBeGreaterThan(10);
      if (typeof published === 'number') {
        // Wider only where the source states an error of its own.
        const most = toleranceIs === undefined ? 0.006 : 0.2;
        expect(tolerance, what).toBeLessThanOrEqual(Math.abs(published) * most);
      } else {
        const [least, highest] = published;
        expect(least, what).toBeLessThan(highest);
        expect(tolerance, what).toBeLessThanOrEqual((highest - least) * 0.12);
      }
    }
  });
});
