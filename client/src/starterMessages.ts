import * as z from 'zod/mini';

// What the server answers to a coach who starts. What is of another shape is as if there were no answer.

const text = z.string();
const file = z.object({ path: text, text });
const position = z.object({ line: z.number(), character: z.number() });
const place = z.nullable(z.object({ uri: text, range: z.object({ start: position, end: position }) }));

const offers = z.object({ kits: z.array(z.object({ name: text, about: text, known: z.boolean() })) });
const reading = z.object({
  /** What is wrong with the answer; null: nothing. */
  problem: z.nullable(text),
  /** How it was read. */
  words: z.nullable(text),
  /** What the coach has to have seen before this movement is loaded. */
  needs: z.nullable(z.object({ pattern: text, movement: text })),
});
const files = z.object({ files: z.array(file).check(z.minLength(1)), client: text });
const programs = z.object({
  clients: z.array(z.object({ key: text, name: text, follows: z.array(text) })),
  programs: z.array(z.object({ id: text, title: text, about: text })),
});
const follow = z.object({
  folder: text,
  program: text,
  files: z.array(file),
  edit: z.object({ uri: text, position, newText: text }),
  from: text,
});
const places = z.object({ load: place, finding: place, code: z.nullable(text) });

export type StarterFile = z.infer<typeof file>;
export type StarterRead = z.infer<typeof reading>;
export type StarterPlace = z.infer<typeof place>;

export const readOffers = (value: unknown) => offers.safeParse(value).data;
export const readReading = (value: unknown) => reading.safeParse(value).data;
export const readFiles = (value: unknown) => files.safeParse(value).data;
export const readPrograms = (value: unknown) => programs.safeParse(value).data;
export const readFollow = (value: unknown) => follow.safeParse(value).data;
export const readPlaces = (value: unknown) => places.safeParse(value).data;

/** Where to go on once the folder of a new client is open; kept over the reload of the window that opens it. */
const arrival = z.object({ folder: text, file: text, client: text });
export type Arrival = z.infer<typeof arrival>;
export const readArrival = (value: unknown): Arrival | undefined => arrival.safeParse(value).data;
