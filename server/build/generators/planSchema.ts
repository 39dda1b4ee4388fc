import { z } from 'zod';
import { planSchema } from '../../src/engine/export/planSchema.js';

/** The JSON Schema of `stave plan --to json`, for programs in any language. */
export function generate(): Record<string, string> {
  const schema = { title: 'A plan of Stave', ...z.toJSONSchema(planSchema) };
  return { 'server/schemas/plan.schema.json': `${JSON.stringify(schema, null, 2)}\n` };
}
