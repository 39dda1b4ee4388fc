import * as z from 'zod/mini';

// What the server, the extension and the panel of reasons say to each other.

const view = z.enum(['why', 'if']);
export type WhyView = z.infer<typeof view>;

const field = z.object({
  id: z.string(),
  group: z.string(),
  label: z.string(),
  written: z.string(),
  long: z.boolean(),
  problem: z.nullable(z.string()),
});
const answer = z.object({
  view,
  found: z.boolean(),
  title: z.string(),
  clients: z.array(z.object({ key: z.string(), name: z.string() })),
  client: z.nullable(z.string()),
  days: z.array(z.object({ date: z.string(), title: z.string() })),
  day: z.nullable(z.string()),
  fields: z.array(field),
  body: z.string(),
  spoken: z.string(),
});

/** The server's answer to `stave/why`. */
const why = z.extend(answer, { sources: z.array(z.string()) });
export type Why = z.infer<typeof why>;

/** What was written differently to see what would be, by the field's id. */
const changes = z.record(z.string(), z.string());

/** What the panel keeps over a reload of the window; what makes no sense is forgotten. */
const state = z.object({
  uri: z.catch(z.nullable(z.string()), null),
  view: z.catch(view, 'why'),
  line: z.catch(z.number(), 0),
  character: z.catch(z.number(), 0),
  day: z.catch(z.nullable(z.string()), null),
  changes: z.catch(changes, {}),
});
export type WhyState = z.infer<typeof state>;

/** From the extension to the panel. */
const toPanel = z.object({ type: z.literal('show'), state, answer });
export type ToWhyPanel = z.infer<typeof toPanel>;

/** From the panel to the extension. */
const fromPanel = z.discriminatedUnion('type', [
  z.object({ type: z.literal('ready') }),
  z.object({
    type: z.literal('choose'),
    view: z.optional(view),
    client: z.optional(z.string()),
    day: z.optional(z.string()),
    changes: z.optional(changes),
  }),
  /** Go to the text that an element comes from. */
  z.object({ type: z.literal('jump'), at: z.string().check(z.regex(/^\d{1,9}(:\d{1,9}){4}$/)) }),
]);
export type FromWhyPanel = z.infer<typeof fromPanel>;

export const readWhy = (value: unknown): Why | undefined => why.safeParse(value).data;
export const readWhyState = (value: unknown): WhyState =>
  state.safeParse(value).data ?? state.parse({ uri: null });
export const readToWhyPanel = (value: unknown): ToWhyPanel | undefined => toPanel.safeParse(value).data;
export const readFromWhyPanel = (value: unknown): FromWhyPanel | undefined => fromPanel.safeParse(value).data;
