/** Which characters a font can draw, read from its table of characters (OpenType `cmap`, format 12 or 4). */
import fs from 'node:fs';

export type Coverage = (codePoint: number) => boolean;

/** The characters that the font file has; a file that is no such font has none. */
export function coverageOf(file: string): Coverage {
  const bytes = fs.readFileSync(file);
  const ranges = rangesOf(bytes);
  return (codePoint) => ranges.some(([from, to]) => codePoint >= from && codePoint <= to);
}

function rangesOf(bytes: Buffer): readonly (readonly [number, number])[] {
  const tables = bytes.readUInt16BE(4);
  for (let index = 0; index < tables; index += 1) {
    const record = 12 + index * 16;
    if (bytes.toString('latin1', record, record + 4) !== 'cmap') continue;
    const start = bytes.readUInt32BE(record + 8);
    const count = bytes.readUInt16BE(start + 2);
    const places = Array.from(
      { length: count },
      (_, at) => start + bytes.readUInt32BE(start + 4 + at * 8 + 4),
    );
    const full = places.find((place) => bytes.readUInt16BE(place) === 12);
    if (full !== undefined) return groups(bytes, full);
    const basic = places.find((place) => bytes.readUInt16BE(place) === 4);
    if (basic !== undefined) return segments(bytes, basic);
  }
  return [];
}

function groups(bytes: Buffer, place: number): (readonly [number, number])[] {
  const count = bytes.readUInt32BE(place + 12);
  return Array.from({ length: count }, (_, at) => {
    const group = place + 16 + at * 12;
    return [bytes.readUInt32BE(group), bytes.readUInt32BE(group + 4)] as const;
  });
}

function segments(bytes: Buffer, place: number): (readonly [number, number])[] {
  const count = bytes.readUInt16BE(place + 6) / 2;
  return Array.from({ length: count }, (_, at) => {
    const to = bytes.readUInt16BE(place + 14 + at * 2);
    return [bytes.readUInt16BE(place + 16 + count * 2 + at * 2), to] as const;
  });
}
