import * as z from 'zod/mini';

/** What the panel knows already when it asks for an export. */
const wish = z.object({
  uri: z.optional(z.string()),
  kind: z.optional(z.string()),
  client: z.optional(z.nullable(z.string())),
  date: z.optional(z.nullable(z.string())),
  large: z.optional(z.boolean()),
});
export type ExportWish = z.infer<typeof wish>;

/** What the coach answered; remembered for the folder. */
const answers = z.object({
  kind: z.string(),
  /** Null: every client, or a document about everyone. */
  client: z.nullable(z.string()),
  date: z.nullable(z.string()),
  large: z.boolean(),
  formats: z.array(z.string()).check(z.minLength(1)),
  /** Address of a folder; null: the one of the settings. */
  folder: z.nullable(z.string()),
});
export type ExportAnswers = Readonly<Omit<z.infer<typeof answers>, 'formats'>> & {
  readonly formats: readonly string[];
};

const written = z.object({
  files: z.array(z.string()).check(z.minLength(1)),
  folder: z.string(),
  /** Characters that the letters of the PDF lack. */
  missing: z._default(z.array(z.string()), []),
});

/** Reads the argument of the command. Whatever makes no sense is as if nothing were known. */
export const readExportWish = (value: unknown): ExportWish => wish.safeParse(value).data ?? {};
/** Reads what was remembered; undefined when it is not of this version. */
export const readExportAnswers = (value: unknown): ExportAnswers | undefined => answers.safeParse(value).data;
/** Reads the server's answer. */
export const readExportAnswer = (value: unknown): z.infer<typeof written> | undefined =>
  written.safeParse(value).data;
