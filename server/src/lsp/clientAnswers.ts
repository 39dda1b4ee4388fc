import { z } from 'zod';

/** What the client may answer to the requests for files. Apart, so that the greeting does not wait for the checks. */
export const clientAnswers = {
  addresses: z.array(z.string()),
  texts: z.array(z.string().nullable()),
  bytes: z.string().nullable(),
};
