import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Content, TDocumentDefinitions } from 'pdfmake/interfaces';
import { afterAll, describe, expect, it } from 'vitest';
import { leanFont } from '../../server/build/leanFont.mjs';
import { drawPdf } from '../../server/src/cli/pdf.js';
import { coverageOf } from '../../server/src/engine/print/glyphs.js';
import { planToPdfDefinition } from '../../server/src/engine/print/pdfDefinition.js';
import { directionOf, placedPieces } from '../../server/src/pdf/order.js';
import { day, movement, plan, week, work } from './sheets.js';

// Letters in a PDF: their order where they are read from right to left, and the font that is shipped.

const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-letters-'));
afterAll(() => fs.rmSync(scratch, { recursive: true, force: true }));

function definition(content: Content): TDocumentDefinitions {
  return {
    pageSize: { width: 400, height: 300 },
    pageMargins: [20, 20, 20, 20],
    version: '1.7',
    language: 'en',
    info: { title: 'Letters', creationDate: new Date(0) },
    defaultStyle: { font: 'Plan', fontSize: 14 },
    content,
  };
}

async function textOf(content: Content): Promise<string> {
  const file = path.join(scratch, 'letters.pdf');
  fs.writeFileSync(file, (await drawPdf(definition(content))).bytes);
  // Marks of direction are the reader's own.
  return execFileSync('pdftotext', [file, '-'], { encoding: 'utf8' })
    .replace(/[\u202a-\u202e]/g, '')
    .trim();
}

/** The words as a reader of PDF finds them, from the left of the page. */
async function wordsFromLeft(content: Content): Promise<readonly string[]> {
  const file = path.join(scratch, 'words.pdf');
  fs.writeFileSync(file, (await drawPdf(definition(content))).bytes);
  const found = execFileSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8' });
  return [...found.matchAll(/<word xMin="([\d.]+)"[^>]*>([^<]*)</g)]
    .map(([, x, word]) => ({ x: Number(x), word: (word ?? '').replace(/[\u202a-\u202e]/g, '') }))
    .sort((a, b) => a.x - b.x)
    .map(({ word }) => word);
}

/** The letters of a word from the left, where they are read from the right. */
const turned = (word: string) => [...word].reverse().join('');

const pieces = (text: string) => text.match(/\S+\s*/g)?.map((word) => ({ text: word })) ?? [];
const placed = (text: string) =>
  placedPieces(pieces(text), directionOf(text))
    .map((part) => part.text)
    .join('');

describe('text that is read from right to left', () => {
  // The orders on paper are those of the examples and rules of UAX #9.
  it('stands word by word from the right, in a line that is read from the left too', () => {
    expect(placed('Plan for يمامة الحقل today')).toBe('Plan for الحقل يمامة today');
    expect(placed('יונה לבנה')).toBe('לבנה יונה');
  });

  it('keeps numbers and other letters from the left', () => {
    // A space between a number and letters from the left goes with the line (rules W2 and N1).
    expect(placed('יונה 45 kg לבנה')).toBe('לבנה kg 45 יונה');
    expect(placed('Dove, יונה 12, week 3')).toBe('Dove, 12 יונה, week 3');
  });

  it('turns brackets around', () => {
    // The letters of a part are turned by the font, the brackets with them: on paper the first one opens.
    expect(placed('יונה (לבנה)')).toBe(')לבנה( יונה');
  });

  it('leaves a line without such letters as it is', () => {
    expect(placed('back squat (high bar) 3 × 6')).toBe('back squat (high bar) 3 × 6');
  });

  it('stands so in the PDF', async () => {
    expect(await wordsFromLeft('Plan for يمامة الحقل today')).toEqual([
      'Plan',
      'for',
      turned('الحقل'),
      turned('يمامة'),
      'today',
    ]);
    expect(await wordsFromLeft({ text: ['Dove ', { text: 'יונה לבנה', bold: true }, ' week 3'] })).toEqual([
      'Dove',
      turned('לבנה'),
      turned('יונה'),
      'week',
      '3',
    ]);
    expect(await wordsFromLeft('يمامة الحقل 45 kg')).toEqual(['kg', '45', turned('الحقل'), turned('يمامة')]);
  });
});

describe('documents that share their fonts', () => {
  it('are the same whatever was drawn before them', async () => {
    const of = (text: string) =>
      definition([
        { text, bold: true },
        { text, italics: true },
      ]);
    // A no-break space and a space, the two micro signs and the forms of Arabic letters share glyphs.
    const own = (await drawPdf(of('a b µ يمامة'))).bytes;
    await drawPdf(of('a\u00a0b \u03bc \ufef3\ufee4\ufe8e\ufee3\ufe94 ﬁ'));
    expect(Buffer.from((await drawPdf(of('a b µ يمامة'))).bytes).equals(own)).toBe(true);
  });

  it('slant what is slanted, bold too', async () => {
    const plain = (await drawPdf(definition({ text: 'Heron', bold: true }))).bytes;
    const slanted = (await drawPdf(definition({ text: 'Heron', bold: true, italics: true }))).bytes;
    expect(Buffer.from(slanted).equals(plain)).toBe(false);
    expect(await textOf({ text: 'Heron', bold: true, italics: true })).toBe('Heron');
  });
});

describe('the font that is shipped', () => {
  const folder = path.join('node_modules', 'dejavu-fonts-ttf', 'ttf');
  const faces = ['DejaVuSansCondensed.ttf', 'DejaVuSansCondensed-Bold.ttf'];

  it.each(faces)('%s has every character of the one that it is made from', (file) => {
    const whole = fs.readFileSync(path.join(folder, file));
    const lean = leanFont(whole);
    expect(lean.length).toBeLessThan(whole.length);
    const [wholeHas, leanHas] = [coverageOf(whole), coverageOf(lean)];
    const lost: number[] = [];
    let known = 0;
    for (let codePoint = 0x20; codePoint < 0x20000; codePoint += 1) {
      if (wholeHas(codePoint)) known += 1;
      if (wholeHas(codePoint) !== leanHas(codePoint)) lost.push(codePoint);
    }
    expect(lost).toEqual([]);
    expect(known).toBeGreaterThan(5000);
  });
});

describe('the structure for screen readers', () => {
  it('has headings, a table with its heads, and each picture in words; the foot of the page is none of it', async () => {
    const sheet = day('Lower', [
      movement({ name: 'Back squat', work: [work({ side: { eachSideKg: [10, 5], unit: 'kg' } })] }),
    ]);
    const file = path.join(scratch, 'structure.pdf');
    const document = plan([week([sheet])]);
    fs.writeFileSync(file, (await drawPdf(planToPdfDefinition(document, new Date(0)))).bytes);
    const info = execFileSync('pdfinfo', [file], { encoding: 'utf8' });
    expect(info).toMatch(/Tagged:\s+yes/);
    expect(info).toMatch(/Title:\s+Plan for/);
    const structure = execFileSync('pdfinfo', ['-struct-text', file], { encoding: 'utf8' });
    expect(structure).toMatch(/H1[^\n]*\n\s+"Plan for/);
    expect(structure).toMatch(
      /Table[\s\S]*Caption[\s\S]*Lower[\s\S]*TR[\s\S]*TH[\s\S]*Movement[\s\S]*TR[\s\S]*Back squat/,
    );
    expect(structure).not.toContain('page 1 of');
    const tree = execFileSync('pdfinfo', ['-struct', file], { encoding: 'utf8' });
    expect(tree).toContain('Figure');
    expect(fs.readFileSync(file, 'latin1')).toContain('One side of the bar, from the inside: 10, 5 kg.');
  });
});
