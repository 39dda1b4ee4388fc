import type { Rule } from '../ruleForm.js';
import { aimMismatch } from './aimMismatch.js';
import { avoided } from './avoided.js';
import { backTooFast } from './backTooFast.js';
import { beyondCurve } from './beyondCurve.js';
import { beyondKit } from './beyondKit.js';
import { blockModerate } from './blockModerate.js';
import { bodyUnlikely } from './bodyUnlikely.js';
import { boneCaution } from './boneCaution.js';
import { cannotWorkOut } from './cannotWorkOut.js';
import { curveFit } from './curveFit.js';
import { daysMany } from './daysMany.js';
import { dayUnreached } from './dayUnreached.js';
import { deloadDue } from './deloadDue.js';
import { effortMismatch } from './effortMismatch.js';
import { effortUnwritten } from './effortUnwritten.js';
import { failureEarly } from './failureEarly.js';
import { failurePast35 } from './failurePast35.js';
import { farOff } from './farOff.js';
import { flexionCaution } from './flexionCaution.js';
import { heavyEarly } from './heavyEarly.js';
import { heavySoon } from './heavySoon.js';
import { heavyWithin48h } from './heavyWithin48h.js';
import { jumpLoad } from './jumpLoad.js';
import { kitCoarse } from './kitCoarse.js';
import { loadNotMade } from './loadNotMade.js';
import { loadUnchecked } from './loadUnchecked.js';
import { logFarOff } from './logFarOff.js';
import { machineFit } from './machineFit.js';
import { massUnknown } from './massUnknown.js';
import { maxAgeing } from './maxAgeing.js';
import { maxContradicts } from './maxContradicts.js';
import { maxImprecise } from './maxImprecise.js';
import { maxStale } from './maxStale.js';
import { maxUnknown } from './maxUnknown.js';
import { noCarry } from './noCarry.js';
import { noKit } from './noKit.js';
import { oneSided } from './oneSided.js';
import { oneSideOnly } from './oneSideOnly.js';
import { painNextMorning } from './painNextMorning.js';
import { painReported } from './painReported.js';
import { pressureCaution } from './pressureCaution.js';
import { prilepinRange } from './prilepinRange.js';
import { programCut } from './programCut.js';
import { programGap } from './programGap.js';
import { repsPast35 } from './repsPast35.js';
import { restShort } from './restShort.js';
import { screeningMissing } from './screeningMissing.js';
import { screeningOld } from './screeningOld.js';
import { sessionLong } from './sessionLong.js';
import { sessionMissed } from './sessionMissed.js';
import { sessionOverran } from './sessionOverran.js';
import { sharedLoad } from './sharedLoad.js';
import { signOffAgain } from './signOffAgain.js';
import { spotterNote } from './spotterNote.js';
import { sprintDose } from './sprintDose.js';
import { sprintNearHeavy } from './sprintNearHeavy.js';
import { stageUnsigned } from './stageUnsigned.js';
import { stuck } from './stuck.js';
import { testsCrowded } from './testsCrowded.js';
import { twiceNamed } from './twiceNamed.js';
import { twoStations } from './twoStations.js';
import { unknownName } from './unknownName.js';
import { unusedAllow } from './unusedAllow.js';
import { volumeAboveMean } from './volumeAboveMean.js';
import { volumeJump } from './volumeJump.js';
import { weekMonotony } from './weekMonotony.js';
import { weekStrain } from './weekStrain.js';
import { workloadRatio } from './workloadRatio.js';

/** Every rule, in the order in which they are asked. */
export const RULES: readonly Rule[] = [
  unknownName,
  twiceNamed,
  cannotWorkOut,
  dayUnreached,
  programGap,
  programCut,
  sessionMissed,
  noKit,
  massUnknown,
  bodyUnlikely,
  maxUnknown,
  maxStale,
  maxAgeing,
  beyondKit,
  avoided,
  heavyEarly,
  stageUnsigned,
  jumpLoad,
  effortMismatch,
  stuck,
  loadUnchecked,
  effortUnwritten,
  farOff,
  screeningMissing,
  screeningOld,
  deloadDue,
  heavyWithin48h,
  beyondCurve,
  maxImprecise,
  failureEarly,
  backTooFast,
  signOffAgain,
  loadNotMade,
  kitCoarse,
  machineFit,
  twoStations,
  boneCaution,
  heavySoon,
  spotterNote,
  restShort,
  blockModerate,
  volumeJump,
  volumeAboveMean,
  sprintDose,
  sprintNearHeavy,
  daysMany,
  oneSided,
  oneSideOnly,
  testsCrowded,
  maxContradicts,
  painReported,
  painNextMorning,
  logFarOff,
  sharedLoad,
  aimMismatch,
  pressureCaution,
  flexionCaution,
  curveFit,
  failurePast35,
  repsPast35,
  noCarry,
  sessionLong,
  sessionOverran,
  prilepinRange,
  weekMonotony,
  weekStrain,
  workloadRatio,
  unusedAllow,
];
