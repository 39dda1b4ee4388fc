export function leanFont(bytes: Buffer): Buffer;
