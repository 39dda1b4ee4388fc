/** A review as one HTML file that needs nothing else: no script, no font, no picture from outside. */
import { dayNumber } from '../dates.js';
import type { IsoDate } from '../model.js';
import { formatNumber, formatPercent } from '../numbers.js';
import { html, type Markup, raw } from '../print/markup.js';
import { formatMass, fromKg, type MassUnit } from '../units.js';
import type { MovementReview, Review } from './review.js';
import { doneWords, STATE_WORDS, SUPPORT_WORDS, signed, workWords } from './words.js';

const STYLES = `body{font:15px/1.45 system-ui,sans-serif;max-width:60rem;margin:1.5rem auto;padding:0 1rem;color:#1c2733;background:#fff}
h1{margin:0}h2{margin:2rem 0 .5rem;border-bottom:1px solid #c8d0d8}h3{margin:1.2rem 0 .2rem}
table{border-collapse:collapse;width:100%}th,td{text-align:left;padding:.2rem .6rem .2rem 0;vertical-align:top;border-bottom:1px solid #e3e8ec}
td.n,th.n{text-align:right;font-variant-numeric:tabular-nums}code{font:13px/1.4 ui-monospace,monospace;background:#eef2f5;padding:.1rem .3rem}
.small{color:#52606d;font-size:13px}svg{width:100%;height:auto;max-height:16rem}.band{fill:#2a6f97;opacity:.16}.dot{fill:#2a6f97}.max{fill:#b5541c}
.away{fill:#9aa5b1;opacity:.3}.deload{fill:#7cb518;opacity:.16}.axis{stroke:#9aa5b1;stroke-width:1}text{font:11px system-ui,sans-serif;fill:#52606d}
@media(prefers-color-scheme:dark){body{background:#14191f;color:#e4e9ee}code{background:#232b34}th,td{border-color:#2d3742}h2{border-color:#3d4854}.small,text{color:#a7b3bf;fill:#a7b3bf}}`;

/** The HTML file of a review. */
export function reviewToHtml(review: Review): string {
  const { client } = review;
  return `<!doctype html>\n${
    html`<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${client.name}: review</title>
<style>
${raw(STYLES)}
</style>
</head>
<body>
<h1 dir="auto">${client.name}</h1>
<p>Review on ${review.today}. ${adherenceText(review)} For the coach; these are estimates, and a qualified professional decides about pain and illness.</p>
${offersSection(review)}
${strengthSection(review)}
${weeksSection(review)}
${yearsSection(review)}
</body>
</html>
`.text
  }`;
}

function adherenceText({ adherence }: Review): string {
  return adherence === null
    ? ''
    : `${formatPercent(adherence, 0)} of the planned sets so far were logged as done.`;
}

function offersSection({ offers }: Review): Markup {
  if (offers.length === 0) return html`<h2>To decide</h2>\n<p>Nothing is offered today.</p>`;
  return html`<h2>To decide</h2>
${offers.map(
  (offer) =>
    html`<h3 dir="auto">${offer.title}</h3>\n<p dir="auto">${offer.why}</p>\n${
      offer.line === null ? null : html`<p><code dir="auto">${offer.line}</code></p>\n`
    }<ul class="small">${offer.rests.map(({ message }) => html`<li dir="auto">${message}</li>`)}</ul>\n<p class="small">${offer.source}</p>\n`,
)}`;
}

function strengthSection(review: Review): Markup {
  const { units } = review.client;
  return html`<h2>Strength</h2>
<p class="small">Estimated one-repetition maximum with the band in which it lies about 95 times of 100. Dots: best set of a day; diamonds: max lines. Grey: away; green: deload weeks.</p>
${review.movements.map(
  (movement) => html`<h3 dir="auto">${movement.movement.name}</h3>
<p>${formatMass(movement.current.kg, units)} (${formatMass(movement.current.lowKg, units)} to ${formatMass(movement.current.highKg, units)})${
    movement.perBodyMass === null ? '' : `, ${formatNumber(movement.perBodyMass)} times body mass`
  }. The logs show ${SUPPORT_WORDS[movement.supports]}${movement.plan === null ? '' : ` (${formatMass(movement.plan.kg, units)})`}.</p>
${chart(movement, review)}`,
)}`;
}

const WIDTH = 720;
const HEIGHT = 200;
const LEFT = 44;
const BOTTOM = 22;

/** The estimates of a movement over time as a picture. Null with fewer than two days. */
function chart({ estimates, movement }: MovementReview, review: Review): Markup | null {
  const first = estimates[0];
  const last = estimates[estimates.length - 1];
  if (!first || !last || first === last) return null;
  const from = dayNumber(first.date);
  const days = Math.max(1, dayNumber(last.date) - from);
  const low = Math.min(...estimates.map(({ lowKg }) => lowKg));
  const high = Math.max(...estimates.map(({ highKg }) => highKg));
  const x = (date: IsoDate) => LEFT + ((dayNumber(date) - from) / days) * (WIDTH - LEFT - 8);
  const y = (kg: number) => 8 + (1 - (kg - low) / Math.max(1e-9, high - low)) * (HEIGHT - BOTTOM - 8);
  const at = (value: number) => formatNumber(value, 1);
  const upper = estimates.map((each) => `${at(x(each.date))},${at(y(each.highKg))}`);
  const lower = estimates.map((each) => `${at(x(each.date))},${at(y(each.lowKg))}`).reverse();
  const shade = (name: string, begin: IsoDate, end: IsoDate) => {
    const left = Math.max(LEFT, x(begin));
    const right = Math.min(WIDTH - 8, x(end));
    return right <= left
      ? null
      : html`<rect class="${name}" x="${at(left)}" y="8" width="${at(right - left)}" height="${HEIGHT - BOTTOM - 8}"/>`;
  };
  const unit = review.client.units;
  return html`<svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="${movement.name}: ${kgText(first.kg, unit)} on ${first.date} to ${kgText(last.kg, unit)} on ${last.date}">
${review.client.aways.map((away) => shade('away', away.from, away.to))}
${review.weeks.filter(({ deload }) => deload).map((week) => shade('deload', week.from, week.sessions[week.sessions.length - 1]?.date ?? week.from))}
<polygon class="band" points="${[...upper, ...lower].join(' ')}"/>
${estimates.map(({ date, kg, set }) =>
  set.from === 'max'
    ? html`<path class="max" d="M${at(x(date))} ${at(y(kg) - 5)}l5 5l-5 5l-5 -5z"/>`
    : html`<circle class="dot" cx="${at(x(date))}" cy="${at(y(kg))}" r="2.5"/>`,
)}
<line class="axis" x1="${LEFT}" y1="${HEIGHT - BOTTOM}" x2="${WIDTH - 8}" y2="${HEIGHT - BOTTOM}"/>
<text x="0" y="16">${kgText(high, unit)}</text><text x="0" y="${HEIGHT - BOTTOM}">${kgText(low, unit)}</text>
<text x="${LEFT}" y="${HEIGHT - 6}">${first.date}</text><text x="${WIDTH - 70}" y="${HEIGHT - 6}">${last.date}</text>
</svg>
`;
}

function kgText(kg: number, unit: MassUnit): string {
  return `${formatNumber(fromKg(kg, unit), 0)} ${unit}`;
}

function weeksSection(review: Review): Markup {
  const { units } = review.client;
  const weeks = review.weeks.filter((week) => week.sessions.some(({ state }) => state !== 'ahead'));
  return html`<h2>Plan against done</h2>
${weeks.map(
  (
    week,
  ) => html`<h3 dir="auto">${week.program.name} · ${week.block.name}, week ${week.week}${week.deload ? ' (deload)' : ''}</h3>
<p>Planned ${workWords(week.planned, units)}; done ${workWords(week.done, units)}. ${week.adherence === null ? '' : `${formatPercent(week.adherence, 0)} of the sets.`}</p>
<table><thead><tr><th>Day</th><th>Movement</th><th>Done</th><th class="n">Sets</th><th class="n">Reps</th><th class="n">Volume-load</th></tr></thead><tbody>
${week.sessions.map((session) =>
  session.movements.length === 0
    ? html`<tr><td>${session.date} ${session.session?.day.name ?? ''}</td><td colspan="5">${STATE_WORDS[session.state]}</td></tr>\n`
    : session.movements.map(
        (each, index) =>
          html`<tr><td dir="auto">${index === 0 ? `${session.log?.date ?? session.date} ${session.session?.day.name ?? ''}` : ''}</td><td dir="auto">${each.done.name}</td><td dir="auto">${doneWords(each.done, units)}</td><td class="n">${signed(each.doneWork.sets - each.planned.sets)}</td><td class="n">${signed(each.doneWork.reps - each.planned.reps)}</td><td class="n">${signed(fromKg(each.doneWork.volumeLoadKg - each.planned.volumeLoadKg, units))} ${units}</td></tr>\n`,
      ),
)}</tbody></table>`,
)}`;
}

function yearsSection({ years, client }: Review): Markup {
  return html`<h2>Years</h2>
${years.map(
  (year) => html`<h3>${year.year}</h3>
<p>${year.sessionsLogged} sessions logged, volume-load ${formatMass(Math.round(year.volumeLoadKg), client.units)}${year.adherence === null ? '' : `, ${formatPercent(year.adherence, 0)} of the planned sets`}${year.massKg === null ? '' : `, body mass ${formatMass(year.massKg, client.units)}`}.</p>
${year.stages.length === 0 ? null : html`<p>Signed off: ${year.stages.map(({ stage, pattern, date }) => `${stage} ${pattern} ${date}`).join(', ')}.</p>\n`}<table><thead><tr><th>Best set</th><th>On</th><th class="n">Load</th><th class="n">Reps + reserve</th><th class="n">Estimated max</th></tr></thead><tbody>
${year.best.map(
  (best) =>
    html`<tr><td dir="auto">${best.name}</td><td>${best.date}</td><td class="n">${formatMass(best.loadKg, client.units)}</td><td class="n">${formatNumber(best.reps)} + ${formatNumber(best.reserve, 1)}</td><td class="n">${formatMass(best.estimatedOneRepMaxKg, client.units)}</td></tr>\n`,
)}</tbody></table>`,
)}`;
}
