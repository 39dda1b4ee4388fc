/** The JSON that `stave loads --json` writes. What does not apply is null. */
import { z } from 'zod';

/** Raised when a field changes its meaning or goes. */
export const LOADS_VERSION = 1;

const isoDate = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
const position = z.int().min(1);

const groupSchema = z.strictObject({
  sets: z.number().nullable(),
  /** The lower end of a range. */
  reps: z.number().nullable(),
  seconds: z.number().nullable(),
  metres: z.number().nullable(),
  targetKg: z.number().nullable(),
  loadKg: z.number().nullable(),
  /** Plates of one side, heaviest first; an empty list is the bare bar. */
  eachSideKg: z.array(z.number()).nullable(),
  /** Predicted repetitions in reserve at `loadKg`; null where unknown or beyond what the curve covers. */
  reserve: z.number().nullable(),
  /** Share of the estimated one-repetition maximum, 0 to 1. */
  share: z.number().nullable(),
  provisional: z.boolean(),
});

const cellSchema = z.strictObject({
  client: z.string(),
  program: z.string(),
  block: z.string(),
  day: z.string(),
  movement: z.string(),
  /** Inside the block, from 1. */
  week: position,
  date: isoDate,
  file: z.string(),
  line: position,
  groups: z.array(groupSchema),
});

const findingSchema = z.strictObject({
  code: z.string(),
  severity: z.enum(['error', 'warning', 'info', 'hint']),
  file: z.string(),
  line: position,
  column: position,
  message: z.string(),
});

export const loadsSchema = z.strictObject({
  version: z.literal(LOADS_VERSION),
  cells: z.array(cellSchema),
  findings: z.array(findingSchema),
});

export type Loads = z.infer<typeof loadsSchema>;
export type LoadsCell = Loads['cells'][number];
export type LoadsGroup = LoadsCell['groups'][number];
