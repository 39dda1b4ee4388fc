/** Which characters a font can draw, read from its table of characters (OpenType `cmap`, format 12 or 4). */

export type Coverage = (codePoint: number) => boolean;

/** The characters that a font has, from the bytes of its file; what is no such font has none. */
export function coverageOf(file: Uint8Array): Coverage {
  const ranges = rangesOf(new DataView(file.buffer, file.byteOffset, file.byteLength));
  return (codePoint) => ranges.some(([from, to]) => codePoint >= from && codePoint <= to);
}

/** The four letters `cmap` as one number. */
const CMAP = 0x636d6170;

function rangesOf(bytes: DataView): readonly (readonly [number, number])[] {
  const tables = bytes.byteLength < 12 ? 0 : bytes.getUint16(4);
  for (let index = 0; index < tables; index += 1) {
    const record = 12 + index * 16;
    if (bytes.getUint32(record) !== CMAP) continue;
    const start = bytes.getUint32(record + 8);
    const count = bytes.getUint16(start + 2);
    const places = Array.from({ length: count }, (_, at) => start + bytes.getUint32(start + 4 + at * 8 + 4));
    const full = places.find((place) => bytes.getUint16(place) === 12);
    if (full !== undefined) return groups(bytes, full);
    const basic = places.find((place) => bytes.getUint16(place) === 4);
    if (basic !== undefined) return segments(bytes, basic);
  }
  return [];
}

function groups(bytes: DataView, place: number): (readonly [number, number])[] {
  const count = bytes.getUint32(place + 12);
  return Array.from({ length: count }, (_, at) => {
    const group = place + 16 + at * 12;
    return [bytes.getUint32(group), bytes.getUint32(group + 4)] as const;
  });
}

function segments(bytes: DataView, place: number): (readonly [number, number])[] {
  const count = bytes.getUint16(place + 6) / 2;
  return Array.from({ length: count }, (_, at) => {
    const to = bytes.getUint16(place + 14 + at * 2);
    return [bytes.getUint16(place + 16 + count * 2 + at * 2), to] as const;
  });
}
