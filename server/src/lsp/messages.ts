/** Requests of our own, beside those of the protocol. */
export const statusRequest = 'stave/status';
/** Sent to the client when what `stave/status` answers may have changed. */
export const statusChanged = 'stave/statusChanged';

/** Answer to `stave/status`: who follows the programs of a file, and whose loads its hints show. */
export interface Status {
  /** All clients of the folder, those who follow a program of this file first. */
  readonly clients: readonly StatusClient[];
  /** Key of the client whose loads are shown in this file; null when there is nobody to show. */
  readonly shown: string | null;
  /** Whether the coach chose her, or she is just the first. */
  readonly chosen: boolean;
}

export interface StatusClient {
  readonly key: string;
  readonly name: string;
  /** The programs she follows, by name. */
  readonly follows: readonly string[];
  /** Whether she follows a program that this file writes. */
  readonly inFile: boolean;
}
