/** Names that a device keeps for itself on Windows. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/i;
const MAX_LENGTH = 60;

/**
 * The name of a client's plan without its ending: `Heron-plan`. Only letters and digits of any script, `-` and `_`
 * are kept, so that the name never leaves its folder and every file system takes it. Where something was left out,
 * a number made from the whole name follows, so that two clients never share a file. The same name gives the same
 * file. Names that differ only in case are one client.
 */
export function planFileStem(name: string): string {
  return documentFileStem(name, 'plan');
}

/** The same for any document of that name: `documentFileStem('Heron', 'overview')` gives `Heron-overview`. */
export function documentFileStem(name: string, document: string): string {
  const plain = name.normalize('NFC').trim().replace(/\s+/g, '-');
  const safe = plain.replace(/[^\p{L}\p{M}\p{N}_-]+/gu, '').replace(/^-+/, '');
  const short = [...safe].slice(0, MAX_LENGTH).join('');
  const whole =
    short === plain && !plain.includes('--') && !RESERVED.test(plain) && !/-/.test(name) && short !== '';
  return whole
    ? `${short}-${document}`
    : `${short || 'client'}-${checksum(name.normalize('NFC').toLowerCase())}-${document}`;
}

/** FNV-1a, 32 bits, as eight hexadecimal digits: tells names apart, keeps no secret. */
function checksum(text: string): string {
  let hash = 0x811c9dc5;
  for (const character of text) {
    hash ^= character.codePointAt(0) as number;
    hash = Math.imul(hash, 0x01000193) >>> 0;
  }
  return hash.toString(16).padStart(8, '0');
}
