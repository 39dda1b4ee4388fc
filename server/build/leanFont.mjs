// A font file without what only screens of few dots need: programs that fit outlines to a grid of dots, and names of
// glyphs. Outlines, characters, joining and placing of marks stay as they are. Format: OpenType 1.9, tables `glyf`,
// `loca`, `post`.

/** Tables that speak to grids of dots or to programs that edit fonts. */
const LEFT_OUT = new Set(['fpgm', 'prep', 'cvt ', 'gasp', 'FFTM', 'DSIG', 'hdmx', 'VDMX', 'LTSH']);
const COMPOSITE = {
  wordArguments: 0x0001,
  scale: 0x0008,
  more: 0x0020,
  scales: 0x0040,
  matrix: 0x0080,
  program: 0x0100,
};

/** The smaller font, as bytes. Throws when `bytes` is no TrueType font. */
export function leanFont(bytes) {
  const tables = readTables(bytes);
  for (const name of ['glyf', 'loca', 'head', 'post', 'maxp'])
    if (!tables.has(name)) throw new Error(`a font without the table ${name}`);
  for (const name of LEFT_OUT) tables.delete(name);
  const { glyf, loca } = leanGlyphs(tables);
  tables.set('glyf', glyf);
  tables.set('loca', loca);
  // Version 3: no names of glyphs. What stands before them stays.
  const post = Buffer.from(tables.get('post').subarray(0, 32));
  post.writeUInt32BE(0x00030000, 0);
  tables.set('post', post);
  return writeTables(tables);
}

function readTables(bytes) {
  if (bytes.readUInt32BE(0) !== 0x00010000) throw new Error('no TrueType font');
  const tables = new Map();
  for (let index = 0; index < bytes.readUInt16BE(4); index += 1) {
    const at = 12 + index * 16;
    const offset = bytes.readUInt32BE(at + 8);
    tables.set(
      bytes.toString('latin1', at, at + 4),
      bytes.subarray(offset, offset + bytes.readUInt32BE(at + 12)),
    );
  }
  return tables;
}

function leanGlyphs(tables) {
  const long = tables.get('head').readInt16BE(50) === 1;
  const places = tables.get('loca');
  const count = tables.get('maxp').readUInt16BE(4);
  const placeOf = (glyph) => (long ? places.readUInt32BE(glyph * 4) : places.readUInt16BE(glyph * 2) * 2);
  const parts = [];
  const loca = Buffer.alloc((count + 1) * 4);
  let length = 0;
  for (let glyph = 0; glyph < count; glyph += 1) {
    loca.writeUInt32BE(length, glyph * 4);
    const whole = tables.get('glyf').subarray(placeOf(glyph), placeOf(glyph + 1));
    const lean = whole.length === 0 ? whole : leanGlyph(whole);
    const padded = Buffer.concat([lean, Buffer.alloc((4 - (lean.length % 4)) % 4)]);
    parts.push(padded);
    length += padded.length;
  }
  loca.writeUInt32BE(length, count * 4);
  const head = Buffer.from(tables.get('head'));
  head.writeInt16BE(1, 50);
  tables.set('head', head);
  return { glyf: Buffer.concat(parts), loca };
}

function leanGlyph(glyph) {
  const contours = glyph.readInt16BE(0);
  return contours >= 0 ? leanOutline(glyph, contours) : leanComposite(glyph);
}

/** An outline: the ends of its contours are followed by the length of its program and the program. */
function leanOutline(glyph, contours) {
  const at = 10 + contours * 2;
  const program = glyph.readUInt16BE(at);
  return Buffer.concat([glyph.subarray(0, at), Buffer.alloc(2), glyph.subarray(at + 2 + program)]);
}

/** A glyph of other glyphs: the program stands behind the last part. */
function leanComposite(glyph) {
  const lean = Buffer.from(glyph);
  let at = 10;
  for (let flags = COMPOSITE.more; flags & COMPOSITE.more; ) {
    flags = lean.readUInt16BE(at);
    lean.writeUInt16BE(flags & ~COMPOSITE.program, at);
    at += flags & COMPOSITE.wordArguments ? 8 : 6;
    if (flags & COMPOSITE.scale) at += 2;
    else if (flags & COMPOSITE.scales) at += 4;
    else if (flags & COMPOSITE.matrix) at += 8;
  }
  return lean.subarray(0, at);
}

function writeTables(tables) {
  const names = [...tables.keys()].sort();
  const power = 2 ** Math.floor(Math.log2(names.length));
  const header = Buffer.alloc(12 + names.length * 16);
  header.writeUInt32BE(0x00010000, 0);
  header.writeUInt16BE(names.length, 4);
  header.writeUInt16BE(power * 16, 6);
  header.writeUInt16BE(Math.log2(power), 8);
  header.writeUInt16BE((names.length - power) * 16, 10);
  const parts = [header];
  let offset = header.length;
  names.forEach((name, index) => {
    const table = name === 'head' ? withoutSum(tables.get(name)) : tables.get(name);
    const at = 12 + index * 16;
    header.write(name, at, 'latin1');
    header.writeUInt32BE(checksum(table), at + 4);
    header.writeUInt32BE(offset, at + 8);
    header.writeUInt32BE(table.length, at + 12);
    const padding = Buffer.alloc((4 - (table.length % 4)) % 4);
    parts.push(table, padding);
    offset += table.length + padding.length;
  });
  const font = Buffer.concat(parts);
  const head = font.readUInt32BE(12 + names.indexOf('head') * 16 + 8);
  // The sum of the whole font with this field at zero, taken from a constant of the format.
  font.writeUInt32BE((0xb1b0afba - checksum(font)) >>> 0, head + 8);
  return font;
}

function withoutSum(head) {
  const copy = Buffer.from(head);
  copy.writeUInt32BE(0, 8);
  return copy;
}

function checksum(bytes) {
  let sum = 0;
  for (let at = 0; at < bytes.length; at += 4) {
    let word = 0;
    for (let byte = 0; byte < 4; byte += 1) word = word * 256 + (bytes[at + byte] ?? 0);
    sum = (sum + word) >>> 0;
  }
  return sum;
}
