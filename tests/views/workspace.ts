import { createSession, type EngineSession } from '../../server/src/engine/session.js';
import { SAMPLES } from './samples.js';

/** A session with the given files, on a fixed day. */
export function sessionOf(files: Readonly<Record<string, string>>): EngineSession {
  const session = createSession({ today: '2026-12-01' });
  for (const [file, text] of Object.entries(files)) session.setFile(file, text);
  return session;
}

/** The boathouse sample. */
export function boathouse(): EngineSession {
  const own = SAMPLES.filter(({ file }) => file.startsWith('samples/boathouse'));
  return sessionOf(Object.fromEntries(own.map(({ file, text }) => [file, text])));
}

/** One kit, two clients of different strength and unit, one program, in a file each. */
export const SMALL: Readonly<Record<string, string>> = {
  'kit.stave': `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4
  dumbbells: 2kg to 20kg by 2kg
  bands: light, medium
`,
  'clients.stave': `client Heron
  trains at: Boathouse
  ready: heavy all 2026-10-05
  max: back squat, 47.5kg x5 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon thu

client Wren
  units: lb
  trains at: Boathouse
  ready: heavy all 2026-10-05
  max: back squat, 60kg x5 r2, 2026-09-01
  follows: Winter, from 2026-12-07, on mon thu
`,
  'winter.stave': `program Winter

block Keel, 3 weeks, heavy, deload 3
day Lower
  back squat: 3x6 r2 ; 2x6 -10% | 4x | -- easy
  box squat: 3x8 r3
  push-up: 3x8
`,
};

export const WINTER = SMALL['winter.stave'] as string;
