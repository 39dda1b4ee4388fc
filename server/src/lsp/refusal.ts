/**
 * What the coach asked for cannot be done, for a reason that she should read. Told apart by its name, not its class:
 * bundles that are loaded later hold a copy of the class.
 */
export class Refusal extends Error {
  override readonly name = 'Refusal';
}

export function isRefusal(error: unknown): error is Error {
  return error instanceof Error && error.name === 'Refusal';
}
