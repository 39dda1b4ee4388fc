/**
 * The words of caution on every printed plan. They refer, they do not diagnose. Screening by activity, known disease
 * and symptoms: Riebe et al., Med Sci Sports Exerc 2015;47(11):2473-2479. Signs to stop at: after ACSM's guidelines
 * for exercise testing and prescription, reduced to what a person can notice alone.
 */

import { later } from '../../../../grammar/say.js';

export interface Caution {
  readonly heading: string;
  readonly text: string;
}

export const CAUTIONS: readonly Caution[] = [
  {
    heading: later('Before the first session'),
    text: later(
      'Go through a health screening with your coach, and again when anything about your health changes. With a heart, blood-vessel, metabolic or kidney disease, after surgery or a fracture, in pregnancy or after birth, or with any of the signs below, ask a doctor first.',
    ),
  },
  {
    heading: later('Stop at once and get help'),
    text: later(
      'if you have pain or pressure in the chest, neck, jaw or arm; dizziness, faintness or a feeling of losing balance; breathlessness that does not fit the effort; a racing or uneven heartbeat; nausea, cold sweat or going pale. If it does not pass quickly, call the emergency number.',
    ),
  },
  {
    heading: later('Stop the movement'),
    text: later(
      'at sharp or growing pain, numbness or tingling, or when you cannot keep the position you were shown. Tell your coach before you go on.',
    ),
  },
  {
    heading: later('Who decides'),
    text: later(
      'A qualified professional who knows you decides what you do. The loads here are worked out from earlier sets and can be wrong: take less whenever a set feels harder than written. Local rules and house rules come first.',
    ),
  },
];

/** What the words of the plan mean, in the order in which they are met. */
export const HOW_TO_READ: readonly { readonly term: string; readonly meaning: string }[] = [
  { term: '3 × 6', meaning: later('three sets of six repetitions, with the written rest between the sets.') },
  {
    term: later('leave 2 in reserve'),
    meaning: later(
      'end the set when you could still do two more good repetitions. If you could not, take less next set.',
    ),
  },
  {
    term: later('each side'),
    meaning: later(
      'under a load: the plates that go on each end of the bar. After repetitions: left and right.',
    ),
  },
  {
    term: later('provisional'),
    meaning: later(
      'worked out from something old or uncertain. Start lighter, and let your coach see the first set.',
    ),
  },
  {
    term: later('last time'),
    meaning: later(
      'the load and sets of the time before. "Done" is from your training log, "planned" is from this plan: what you really did counts for more.',
    ),
  },
  {
    term: later('easier'),
    meaning: later(
      'on a bad day, tired, sore or unwell: take this movement with a light load instead, or leave it out.',
    ),
  },
  {
    term: later('an empty box'),
    meaning: later('write what you did: load and repetitions of each set or round.'),
  },
];
