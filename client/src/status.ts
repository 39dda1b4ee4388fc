/** What the server says about the clients of a file; the shape of its answer to `stave/status`. */
export interface Status {
  readonly clients: readonly StatusClient[];
  readonly shown: string | null;
  readonly chosen: boolean;
}

export interface StatusClient {
  readonly key: string;
  readonly name: string;
  readonly follows: readonly string[];
  readonly inFile: boolean;
}

/** Takes the server's answer apart; undefined when it is not of the shape that this version knows. */
export function readStatus(value: unknown): Status | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { clients, shown, chosen } = value as Record<string, unknown>;
  if (!Array.isArray(clients)) return undefined;
  return {
    clients: clients.filter(isClient),
    shown: typeof shown === 'string' ? shown : null,
    chosen: chosen === true,
  };
}

function isClient(value: unknown): value is StatusClient {
  if (typeof value !== 'object' || value === null) return false;
  const { key, name, follows, inFile } = value as Record<string, unknown>;
  return (
    typeof key === 'string' &&
    typeof name === 'string' &&
    Array.isArray(follows) &&
    typeof inFile === 'boolean'
  );
}
