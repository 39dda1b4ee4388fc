/** Bytes as text and back: what travels over the protocol is JSON. */

export function toBase64(bytes: Uint8Array): string {
  let text = '';
  // A call takes only so many arguments.
  for (let at = 0; at < bytes.length; at += 0x8000) {
    text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  }
  return btoa(text);
}

/** Throws where the text is no base64. */
export function fromBase64(text: string): Uint8Array {
  return Uint8Array.from(atob(text), (character) => character.charCodeAt(0));
}
