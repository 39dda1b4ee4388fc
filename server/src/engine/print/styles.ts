/** The style sheet of the HTML plan: a page to read on a screen, and print rules that keep a week on a page. */
import { closePad, pageSizes, platesScale, WEEK_FONTS_PT } from './density.js';

/** The class of a week whose text has this size in points. */
export function sizeClass(fontPt: number): string {
  return `text-${Math.round(fontPt * 100)}`;
}

const sizes = WEEK_FONTS_PT.map((font) => {
  const size = pageSizes(font);
  const { fontPt, boxPt, padPt, dayGapPt } = size;
  const values = { font: fontPt, box: boxPt, pad: padPt, close: closePad(size), gap: dayGapPt * 0.7 };
  const rules = Object.entries(values).map(([name, value]) => `--${name}: ${value.toFixed(2)}pt`);
  return `.week.${sizeClass(font)} { ${rules.join('; ')}; --plates: ${platesScale(font).toFixed(2)} }`;
}).join('\n');

export const PLAN_STYLES = `:root {
  --ink: #000; --paper: #fff; --soft: #444; --rule: #777; --fill: #ececec;
  color: var(--ink); background: var(--paper); color-scheme: light dark;
  font: 11pt/1.3 system-ui, "DejaVu Sans", "Noto Sans", Arial, sans-serif;
}
@media screen and (prefers-color-scheme: dark) {
  :root { --ink: #f2f2f2; --paper: #161616; --soft: #c4c4c4; --rule: #8a8a8a; --fill: #2c2c2c }
}
* { box-sizing: border-box }
body { margin: 0 }
main { max-width: 60rem; margin: 0 auto; padding: 1.5rem 1rem }
h1, h2, p { margin: 0; overflow-wrap: anywhere }
h1 { font-size: 2.2em; line-height: 1.15 }
h2 { font-size: 1.2em; margin: 1em 0 .35em }
.program, .when, dt { color: var(--soft) }
.cover > .program { font-size: 1.15em; padding-bottom: .4em; border-bottom: 2pt solid var(--ink) }
dl { margin: .8em 0 }
dl > div { display: flex; gap: 1em; padding: .15em 0 }
dt { flex: 0 0 9em }
dd { margin: 0; flex: 1; overflow-wrap: anywhere }
.facts dd, .reading dt { font-weight: 600; color: var(--ink) }
.notice, .frame, .care ul { border: .75pt solid var(--ink); padding: .5em .8em; margin: .6em 0; overflow-wrap: anywhere }
.notice, .care ul { border-width: 1.5pt; font-weight: 600 }
.care ul { padding-left: 1.8em }
.frame p + p { margin-top: .4em }
.week { font-size: var(--font); margin-top: 3rem }
.week-head { display: flex; flex-wrap: wrap; justify-content: space-between; align-items: baseline; gap: 0 1em; border-bottom: 1.5pt solid var(--ink) }
.week-head h2 { font-size: 15pt; margin: 0 }
.week-head p { font-size: 10pt }
.week-note { font-weight: 600; margin-top: .3em }
.coach { font-style: italic; overflow-wrap: anywhere }
p.coach { margin-top: .3em }
table { width: 100%; border-collapse: collapse; table-layout: fixed; margin-top: var(--gap); border-bottom: .75pt solid var(--rule) }
caption { text-align: left; padding: 0 0 .2em; overflow-wrap: anywhere }
.day { font-weight: 700; font-size: 1.25em; margin-right: .6em }
th, td { text-align: left; vertical-align: top; font-weight: 400; padding: var(--pad) 3pt; border-top: .5pt solid var(--rule); overflow-wrap: anywhere }
tr.more > td, tr.under > td { border-top: 0 }
tr.under > td { padding-top: 0 }
tr:has(+ tr.under) > * { padding-bottom: var(--close) }
thead th { background: var(--fill); font-weight: 700; font-size: .85em }
thead th:nth-child(1) { width: 25.5% } thead th:nth-child(2) { width: 18% } thead th:nth-child(3) { width: 18.5% }
thead th:nth-child(4) { width: 14.5% } thead th:nth-child(5) { width: 23.5% }
.circuit th { background: var(--fill); font-weight: 700 }
.circuit span { font-weight: 400; margin-left: .8em }
.inside > th, .inside.under > td { padding-left: 10pt }
.then { text-align: right; color: var(--soft) }
.big { display: block; font-size: 1.1em }
.small { display: block; font-size: .9em }
b.coach { font-weight: 700 }
.load { display: flex; flex-wrap: wrap; align-items: center; gap: 0 4pt }
.plates svg { display: block; margin: .15em 0; height: auto; max-width: 100% }
.cue { font-style: italic; color: var(--soft) }
.box-row { display: flex; flex-wrap: wrap; gap: 3pt }
.box { flex: 1 1 calc((100% - 15pt) / 6); min-width: 15pt; max-width: 42pt; height: var(--box); border: .75pt solid var(--ink); border-radius: 1.5pt }
.line { display: block; border-bottom: .75pt solid var(--ink); height: 1.5em; margin-right: 8pt }
.session-lines { display: flex; flex-wrap: wrap; gap: 0 1em; font-size: .88em }
.session-lines p { display: flex; align-items: flex-end; flex: 1 1 9em; height: var(--box) }
.session-lines .line { flex: 1; margin: 0 0 0 .5em; border-bottom-width: .5pt }
.running { max-width: 60rem; margin: 0 auto; padding: 0 1rem 1.5rem; color: var(--soft); font-size: 8pt }
${sizes}
@media screen {
  .week { --font: 10pt !important; --box: 24pt !important; --pad: 4pt !important; --close: 2pt !important; --gap: 12pt !important }
}
@media screen and (max-width: 36rem) {
  table, tbody, tr, th, td, caption { display: block; width: auto }
  thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden }
  tr { border-top: .5pt solid var(--rule); padding: 4pt 0 } th, td { border-top: 0; padding: 1pt 3pt }
  tr.more, tr.under { border-top: 0 }
  .then { text-align: left }
}
@media screen {
  .continued { display: none }
}
@media print {
  .continued { break-before: page; font-weight: 600 }
  @page { size: A4; margin: 12mm 12mm 15mm;
    @bottom-left { font: 7.5pt system-ui, "DejaVu Sans", sans-serif; color: #444 }
    @bottom-right { font: 7.5pt system-ui, "DejaVu Sans", sans-serif; color: #444 } }
  main { max-width: none; padding: 0 }
  /* As narrow and as close as on the PDF, so that a week has its page here too. */
  .week { font-family: "DejaVu Sans Condensed", system-ui, "DejaVu Sans", "Noto Sans", Arial, sans-serif; font-stretch: condensed; line-height: 1.25 }
  .week-head { line-height: 1.2 }
  .plates svg { zoom: var(--plates); margin: 0 }
  caption { padding-bottom: .1em }
  .running { display: none }
  .week { break-before: page; margin-top: 0 }
  thead { display: table-header-group }
  tr, .frame, .care ul, .session-lines, .week-head { break-inside: avoid }
  tr.under { break-before: avoid }
  caption, h2, thead, .circuit { break-after: avoid }
  .cover { font-size: 9.5pt }
}`;
