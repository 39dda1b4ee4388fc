import type { Rule } from '../ruleForm.js';
import { avoided } from './avoided.js';
import { beyondKit } from './beyondKit.js';
import { cannotWorkOut } from './cannotWorkOut.js';
import { dayUnreached } from './dayUnreached.js';
import { effortMismatch } from './effortMismatch.js';
import { heavyEarly } from './heavyEarly.js';
import { jumpLoad } from './jumpLoad.js';
import { massUnknown } from './massUnknown.js';
import { maxStale } from './maxStale.js';
import { maxUnknown } from './maxUnknown.js';
import { noKit } from './noKit.js';
import { sessionMissed } from './sessionMissed.js';
import { stageUnsigned } from './stageUnsigned.js';
import { stuck } from './stuck.js';
import { twiceNamed } from './twiceNamed.js';
import { unknownName } from './unknownName.js';
import { unusedAllow } from './unusedAllow.js';

/** Every rule, in the order in which they are asked. */
export const RULES: readonly Rule[] = [
  unknownName,
  twiceNamed,
  cannotWorkOut,
  dayUnreached,
  sessionMissed,
  noKit,
  massUnknown,
  maxUnknown,
  maxStale,
  beyondKit,
  avoided,
  heavyEarly,
  stageUnsigned,
  jumpLoad,
  effortMismatch,
  stuck,
  unusedAllow,
];
