/**
 * Clients write the same file address in different ways (`c:` or `c%3A`, `(` or `%28`). Everything that compares
 * addresses compares this form. Addresses that are not of files stay as they are.
 */
export function canonicalUri(uri: string): string {
  if (!uri.startsWith('file://')) return uri;
  const rest = uri.slice('file://'.length);
  const slash = rest.indexOf('/');
  if (slash < 0) return uri;
  const path = rest
    .slice(slash)
    .split('/')
    .map((part) => encodeURIComponent(decoded(part)))
    .join('/')
    .replace(/^\/([A-Za-z])%3A/, (_, drive: string) => `/${drive.toLowerCase()}%3A`);
  return `file://${rest.slice(0, slash).toLowerCase()}${path}`;
}

/** Whether a file lies in a folder or below it. Both in canonical form. */
export function isInside(uri: string, folder: string): boolean {
  return uri.startsWith(folder.endsWith('/') ? folder : `${folder}/`);
}

/** The last part of an address, readable. */
export function fileName(uri: string): string {
  return decoded(uri.slice(uri.lastIndexOf('/') + 1)) || uri;
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    // A lone percent sign: the address was never encoded, so it is taken as it stands.
    return part;
  }
}
