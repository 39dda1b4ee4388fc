// The whole practice with what was done: the clients and programs of benchWorkspace.mjs, and five years of logs of
// each client, one file for each year. Always the same for the same numbers.
import { benchWorkspace, isoDate, LOADED, randomFrom } from './benchWorkspace.mjs';

/** A Monday; the logs end in the week before this date, and the roster is asked for this day. */
export const ROSTER_DAY = '2026-11-26';
const WEEKS = 260;
const LAST_MONDAY = Date.UTC(2026, 10, 23) / 86_400_000;

/** One lift of the week, three sets: what a coach writes down who logs the main lift alone. */
function logText(client, day, random) {
  const [movement, most] = LOADED[Math.floor(random() * LOADED.length)];
  const kg = Math.max(2.5, Math.round((most * (0.4 + random() * 0.25)) / 2.5) * 2.5);
  const reps = Array.from({ length: 3 }, () => 5 + Math.floor(random() * 3)).join(' ');
  const lines = [
    `log Client ${client}, ${isoDate(day)}, Lower`,
    `  ${movement}: ${kg}kg ${reps} r${Math.floor(random() * 4)}`,
  ];
  if (random() < 0.3)
    lines.push(`  session: rpe ${5 + Math.floor(random() * 4)}, ${45 + Math.floor(random() * 30)}min`);
  if (random() < 0.01) lines.push(`  pain: knee ${1 + Math.floor(random() * 5)}/10`);
  return lines.join('\n');
}

/** Texts by file name, with the number of logs and of logged sets in them. */
export function rosterWorkspace({ clients = 200, weeks = WEEKS, seed = 20_261_126 } = {}) {
  const files = benchWorkspace({ clients });
  const random = randomFrom(seed);
  let logs = 0;
  for (let client = 0; client < clients; client += 1) {
    const byYear = new Map();
    for (let week = weeks - 1; week >= 0; week -= 1) {
      const day = LAST_MONDAY - week * 7;
      const year = isoDate(day).slice(0, 4);
      byYear.set(year, [...(byYear.get(year) ?? []), logText(client, day, random)]);
      logs += 1;
    }
    for (const [year, texts] of byYear) files.set(`log-${client}-${year}.stave`, `${texts.join('\n\n')}\n`);
  }
  return { files, logs, sets: logs * 3 };
}

/** Keystrokes in a log: the repetitions of a set are typed anew, every fifth time wrongly. */
export function logKeystrokes(text, count, seed = 11) {
  const random = randomFrom(seed);
  const sets = [...text.matchAll(/kg (\d)/g)].map((match) => match.index + match[0].length - 1);
  return Array.from({ length: count }, () => ({
    offset: sets[Math.floor(random() * sets.length)],
    typed: random() < 0.2 ? 'q' : String(3 + Math.floor(random() * 6)),
  }));
}
