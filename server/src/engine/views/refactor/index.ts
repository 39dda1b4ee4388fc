import { extractTemplate } from './extractTemplate.js';
import { fixedLoads } from './fixedLoads.js';
import { moveDay } from './moveDay.js';
import type { RefactorContext, Refactoring } from './refactoring.js';
import { splitByClient } from './splitByClient.js';
import { swapMovement } from './swapMovement.js';

/** Every refactoring that may be asked for at an offset. Whether it can be done turns out when it is built. */
export function refactorings(context: RefactorContext): Refactoring[] {
  return [fixedLoads, swapMovement, extractTemplate, moveDay, splitByClient].flatMap((find) => find(context));
}
