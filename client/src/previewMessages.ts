import * as z from 'zod/mini';

// What the server, the extension and the panel say to each other. Whoever receives a message reads it with these.

const client = z.object({ key: z.string(), name: z.string(), inFile: z.boolean() });
const kind = z.object({
  id: z.string(),
  title: z.string(),
  aboutClient: z.boolean(),
  hasDates: z.boolean(),
  formats: z.array(z.string()),
});
const page = z.object({ title: z.string(), css: z.string(), body: z.string() });
const choice = {
  kinds: z.array(kind),
  clients: z.array(client),
  kind: z.string(),
  client: z.nullable(z.string()),
  dates: z.array(z.object({ date: z.string(), title: z.string() })),
  date: z.nullable(z.string()),
  notice: z.nullable(z.string()),
  empty: z.nullable(z.object({ heading: z.string(), text: z.string() })),
};

/** The server's answer to `stave/preview`. */
const preview = z.object({
  ...choice,
  page: z.nullable(z.extend(page, { sources: z.array(z.string()) })),
});
export type Preview = z.infer<typeof preview>;
export type PreviewKind = z.infer<typeof kind>;

/** What the panel keeps over a reload of the window; what makes no sense is forgotten. */
const state = z.object({
  uri: z.catch(z.nullable(z.string()), null),
  kind: z.catch(z.nullable(z.string()), null),
  date: z.catch(z.nullable(z.string()), null),
  large: z.catch(z.boolean(), false),
  /** Size on the screen in per cent; 0: as wide as the panel. */
  zoom: z.catch(z.number(), 0),
  scroll: z.catch(z.number(), 0),
});
export type PreviewState = z.infer<typeof state>;

/** From the extension to the panel. */
const toPanel = z.discriminatedUnion('type', [
  z.object({
    type: z.literal('show'),
    uri: z.nullable(z.string()),
    large: z.boolean(),
    preview: z.object({ ...choice, page: z.nullable(page) }),
  }),
  /** Where the cursor stands in the text: number of the source, line and character from 0; null: in none of them. */
  z.object({
    type: z.literal('cursor'),
    at: z.nullable(z.object({ source: z.number(), line: z.number(), character: z.number() })),
  }),
]);
export type ToPanel = z.infer<typeof toPanel>;

/** From the panel to the extension. */
const fromPanel = z.discriminatedUnion('type', [
  z.object({ type: z.literal('ready') }),
  z.object({
    type: z.literal('choose'),
    kind: z.optional(z.string()),
    client: z.optional(z.string()),
    date: z.optional(z.nullable(z.string())),
    large: z.optional(z.boolean()),
  }),
  /** Go to the text that an element comes from. */
  z.object({ type: z.literal('jump'), at: z.string().check(z.regex(/^\d{1,9}(:\d{1,9}){4}$/)) }),
  z.object({ type: z.literal('export') }),
]);
export type FromPanel = z.infer<typeof fromPanel>;

export const readPreview = (value: unknown): Preview | undefined => preview.safeParse(value).data;
export const readState = (value: unknown): PreviewState =>
  state.safeParse(value).data ?? state.parse({ uri: null });
export const readToPanel = (value: unknown): ToPanel | undefined => toPanel.safeParse(value).data;
export const readFromPanel = (value: unknown): FromPanel | undefined => fromPanel.safeParse(value).data;

/** Where an element comes from: number of the source, and both ends as line and character from 0. */
export interface Mark {
  readonly source: number;
  readonly line: number;
  readonly character: number;
  readonly endLine: number;
  readonly endCharacter: number;
}

/** Reads `source:line:character:line:character`; undefined for anything else. */
export function readMark(text: string | null | undefined): Mark | undefined {
  const numbers = text?.split(':').map(Number) ?? [];
  const [source, line, character, endLine, endCharacter] = numbers;
  if (numbers.length !== 5 || numbers.some((number) => !Number.isInteger(number) || number < 0))
    return undefined;
  return { source, line, character, endLine, endCharacter } as Mark;
}
