/** What the command line needs from the machine it runs on; tests hand in their own. */
export interface Io {
  /** The current folder, absolute. */
  readonly cwd: string;
  /** The date of today, `YYYY-MM-DD`. */
  readonly today: string;
  /** Seconds since 1970 that are written into files as the time of making. */
  readonly madeAtSeconds: number;
  /** Colour for people at a terminal; never under `NO_COLOR`. */
  readonly colour: boolean;
  /** Columns of plain text. */
  readonly width: number;
  /** Whether standard error is a terminal, where a line may be written over. */
  readonly terminal?: boolean;
  /** The texts of a language as they are shipped, JSON; undefined where there are none. */
  readonly texts?: (language: string) => Promise<string | undefined>;
  out(text: string): void;
  err(text: string): void;
  readStdin(): Promise<Buffer>;
}

/** Exit codes. */
export const EXIT = { clean: 0, findings: 1, misuse: 2 } as const;

/** Something that the person at the keyboard has to change: one line on standard error, exit 2. */
export class Misuse extends Error {
  override readonly name = 'Misuse';
}

const REASONS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'there is no room left for you on this disk',
  EFBIG: 'the file would be larger than is allowed here',
  EACCES: 'you are not allowed to',
  EPERM: 'you are not allowed to',
  EROFS: 'this disk can only be read',
  ENOENT: 'it is not there',
  ENOTDIR: 'a part of the path is a file, not a folder',
  EISDIR: 'it is a folder',
  EEXIST: 'there is a file of that name',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'its links lead in a circle',
  EMFILE: 'too many files are open',
  EIO: 'the disk could not be read or written',
};

/** Why the machine refused, in words. */
export function reasonOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return REASONS[code] ?? (code || (error instanceof Error ? error.message : String(error)));
}
