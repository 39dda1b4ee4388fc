/**
 * Measures one client's ten years of logs: reading the files, binding them and the whole review. Prints a line of
 * milliseconds. Run with `node server/build/benchHistory.mjs`.
 */
import { addDays } from '../src/engine/dates.js';
import { reviewOf } from '../src/engine/history/review.js';
import { createSession } from '../src/engine/session.js';

const YEARS = 10;
const START = '2016-01-04';

/** Ten years of a program of 52 weeks, two days a week, every session logged with six movements; one file a year. */
function files(): Map<string, string> {
  const rows = ['back squat', 'bench press', 'deadlift', 'overhead press', 'bent-over row', 'lat pulldown'];
  const kit = `kit Boathouse\n  bar: 15kg\n  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4, 20kg x4\n  machine lat pulldown: 10kg to 100kg by 2.5kg\n`;
  const program = `program Year\n\nblock All, 52 weeks\nday A\n${rows.map((row) => `  ${row}: 3x6 r2`).join('\n')}\nday B\n${rows.map((row) => `  ${row}: 3x8 r3`).join('\n')}\n`;
  const follows = Array.from(
    { length: YEARS },
    (_, year) => `  follows: Year, from ${addDays(START, year * 364)}, on mon thu`,
  );
  const maxes = rows.map((row) => `  max: ${row}, 50kg x5 r2, 2016-01-01`);
  const found = new Map([
    ['kit.stave', kit],
    ['program.stave', program],
    ['client.stave', `client Heron\n  trains at: Boathouse\n${maxes.join('\n')}\n${follows.join('\n')}\n`],
  ]);
  for (let year = 0; year < YEARS; year += 1) {
    const logs: string[] = [];
    for (let session = 0; session < 104; session += 1) {
      const date = addDays(START, year * 364 + Math.floor(session / 2) * 7 + (session % 2) * 3);
      const sets = rows.map(
        (row, index) =>
          `  ${row}: ${45 + ((session + index + year) % 5) * 2.5}kg 6 6 6 r${(session + index) % 4}`,
      );
      logs.push(
        `log Heron, ${date}, ${session % 2 === 0 ? 'A' : 'B'}\n${sets.join('\n')}\n  session: rpe 7, 60min`,
      );
    }
    found.set(`logs/${2016 + year}.stave`, `${logs.join('\n\n')}\n`);
  }
  return found;
}

/** Wall clock and processor time, as others may be using the machine. */
function now(): { readonly wall: bigint; readonly cpu: number } {
  const { user, system } = process.cpuUsage();
  return { wall: process.hrtime.bigint(), cpu: (user + system) / 1000 };
}

const texts = files();
const session = createSession({ today: '2025-12-20' });
const begin = now();
for (const [file, text] of texts) session.setFile(file, text);
const read = now();
const plan = session.plan('heron');
if (!plan) throw new Error('no plan');
const resolved = now();
const review = reviewOf(plan, session.world(), '2025-12-20');
const end = now();
type Moment = ReturnType<typeof now>;
const ms = (from: Moment, to: Moment) =>
  `${Math.round(Number(to.wall - from.wall) / 1e6)} ms (${Math.round(to.cpu - from.cpu)} ms of processor)`;
const sets = review.sessions.reduce((sum, each) => sum + (each.log ? each.done.sets : 0), 0);
console.log(
  `${YEARS} years, ${review.sessions.filter(({ log }) => log).length} logged sessions, ${sets} sets: read ${ms(begin, read)}, plan ${ms(read, resolved)}, review ${ms(resolved, end)}, all ${ms(begin, end)}`,
);
