/** Every source that a rule names by its year has a file of its own in tests/outside, or a reason why there is nothing to compare. */

import { describe, expect, it } from 'vitest';
import { RULES } from '../../server/src/engine/rules/index.js';
import { repositoryFiles } from '../structure/repository.js';

/** How a source is named, and the file that compares with it. */
const FILES: readonly (readonly [RegExp, string])[] = [
  [/Haff & Triplett, Essentials, 4th ed\., 2016/g, 'nscaEssentials'],
  [/NSCA testing steps/g, 'nscaTesting'],
  [/ACSM (position stand )?2009/g, 'acsm2009'],
  [/ACSM (position stand )?2011/g, 'acsm2011'],
  [/ACSM 2026/g, 'acsm2026'],
  [/Reynolds et al\.(, J Strength Cond Res)? 2006/g, 'reynolds2006'],
  [/Mayhew et al\., J Strength Cond Res 2008/g, 'halperin2022'],
  [/Kemmler et al\.(, J Strength Cond Res)? 2006/g, 'kemmler2006'],
  [/Davis, R package carData/g, 'davis'],
  [/Fryar et al\., Vital Health Stat 3\(46\), 2021/g, 'nhanes'],
  [/NHANES 2003 to 2006/g, 'nhanes'],
  [/NHSR 10, 2008/g, 'nhanes'],
  [/Watson et al\.(, J Bone Miner Res)? 2018/g, 'liftmor2018'],
  [/Rogerson et al\., Sports Med Open 2024/g, 'rogerson2024'],
  [/Halperin et al\., Sports Med 2022/g, 'halperin2022'],
  [/Hackett et al\., J Strength Cond Res 2017/g, 'hackett2017'],
  [/Prilepin, 1974-75/g, 'prilepin'],
  [/Riebe et al\., Med Sci Sports Exerc 2015/g, 'riebe2015'],
  [/PAR-Q\+/g, 'riebe2015'],
  [/Metcalfe et al\., Eur J Appl Physiol 2012/g, 'metcalfe2012'],
  [/Foster C\. Med Sci Sports Exerc 1998/g, 'foster1998'],
  [/Gabbett(, Br J Sports Med)? 2016/g, 'gabbett2016'],
  [/Williams et al\., Br J Sports Med 2017/g, 'williams2017'],
  [/e-jer\.org 2013600431/g, 'detraining'],
];

/** What is named as a caution or a counter-view, and why there is no number of it to hold anything to. */
const NOTHING_TO_COMPARE: readonly (readonly [RegExp, string])[] = [
  [/Knutzen et al\. 1999/g, 'says only that general curves come out too low; no value was seen'],
  [
    /Impellizzeri (et al\., Int J Sports Physiol Perform )?2020/g,
    'a critique; no injury is predicted here, so that no odds are worked out',
  ],
  [/(and Sports Med|and) 2021/g, 'the same critique'],
  [/adapted from ACSM 2000/g, 'pressures of monitored tests, among the departures of the reference page'],
];

describe('the source of each rule', () => {
  it.each(RULES.map(({ code, source }) => [code, source] as const))('%s: is compared with', (_, source) => {
    const rest = [...FILES, ...NOTHING_TO_COMPARE].reduce((text, [named]) => text.replace(named, ''), source);
    expect(rest).not.toMatch(/\b(19|20)\d\d\b/);
  });
});

it.each([...new Set(FILES.map(([, file]) => file))])('%s is a file of tests/outside', (file) => {
  expect(repositoryFiles()).toContain(`tests/outside/${file}.test.ts`);
});

it('every name is still used by a rule', () => {
  const all = RULES.map(({ source }) => source).join('\n');
  const unused = [...FILES, ...NOTHING_TO_COMPARE].filter(([named]) => !all.match(named));
  expect(unused.map(([named]) => named.source)).toEqual([]);
});
