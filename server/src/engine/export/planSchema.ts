/** The JSON of a whole plan. What does not apply is null; masses are kilograms. */
import { z } from 'zod';

/** Raised when a field changes its meaning or goes. */
export const PLAN_VERSION = 1;

const isoDate = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
const number = z.number().nullable();
const stage = z.enum(['learn', 'load', 'heavy']);

const groupSchema = z.strictObject({
  sets: number.describe('Number of sets; null in a circuit, where the rounds say how often.'),
  reps: number.describe('Repetitions; the lower end of a range.'),
  repsUpper: number.describe('Upper end of a range.'),
  openReps: z.boolean().describe('As many repetitions as leave the written reserve.'),
  seconds: number,
  metres: number,
  offSeconds: number.describe('Recovery after each interval.'),
  writtenReserve: number.describe('Repetitions in reserve that are asked for.'),
  writtenPercent: number.describe('Percent of the estimated one-repetition maximum that is asked for.'),
  targetKg: number.describe('Load before the equipment is looked at.'),
  loadKg: number.describe(
    'Load that the equipment can make; one dumbbell of a pair; the added load of a bodyweight movement.',
  ),
  eachSideKg: z
    .array(z.number())
    .nullable()
    .describe('Plates of one side, heaviest first; empty for the bare bar.'),
  bar: z.string().nullable(),
  band: z.string().nullable(),
  estimatedOneRepMaxKg: number,
  reserve: number.describe(
    'Predicted repetitions in reserve; null where unknown or beyond what the curve covers.',
  ),
  share: number.describe('Share of the estimated one-repetition maximum, 0 to 1.'),
  stage,
  provisional: z.boolean(),
  provisionalReason: z.string().nullable(),
  issue: z.string().nullable().describe('Why there is no load, or not the one asked for.'),
});

const cellSchema = z.strictObject({
  movement: z.string(),
  label: z.string().nullable(),
  insteadOf: z.string().nullable().describe('The movement of the program that this one stands for.'),
  circuit: z.string().nullable(),
  rounds: number,
  perSide: z.boolean(),
  restSeconds: number,
  tempo: z.tuple([z.number(), z.number(), z.number()]).nullable(),
  heightCm: number,
  warmUp: z.boolean(),
  testReps: number,
  texts: z.array(z.string()),
  groups: z.array(groupSchema),
});

const sessionSchema = z.strictObject({
  id: z.string().describe('Lasting identity of the session; the calendar uses the same.'),
  date: isoDate,
  program: z.string(),
  block: z.string(),
  stage: stage.nullable(),
  week: z.int().min(1).describe('Inside the block, from 1.'),
  weeks: z.int().min(1),
  day: z.string(),
  deload: z.boolean(),
  supervised: z.boolean(),
  startTime: z
    .string()
    .regex(/^\d{2}:\d{2}$/)
    .nullable()
    .describe('When the session begins, on the clock of the place; null where no time is written.'),
  kit: z.string().nullable(),
  cells: z.array(cellSchema),
});

export const planSchema = z.strictObject({
  format: z.literal('stave-plan'),
  version: z.literal(PLAN_VERSION),
  client: z.string(),
  units: z.enum(['kg', 'lb']).describe('What the client reads; all numbers here are kilograms.'),
  care: z.array(z.string()),
  printedOn: isoDate,
  sessions: z.array(sessionSchema),
  missed: z.array(z.strictObject({ date: isoDate, program: z.string(), block: z.string(), day: z.string() })),
});

export type PlanJson = z.infer<typeof planSchema>;
export type PlanJsonCell = PlanJson['sessions'][number]['cells'][number];
export type PlanJsonGroup = PlanJsonCell['groups'][number];
