/** The style sheet of the papers: the same sizes on screen and on paper, dark where the reader's screen is dark. */

export const PAPER_STYLES = `:root {
  --ink: #000; --paper: #fff; --soft: #444; --rule: #777; --fill: #ececec;
  color: var(--ink); background: var(--paper); color-scheme: light dark;
  font: 11pt/1.3 system-ui, "DejaVu Sans", "Noto Sans", Arial, sans-serif;
}
@media screen and (prefers-color-scheme: dark) {
  :root { --ink: #f2f2f2; --paper: #161616; --soft: #c4c4c4; --rule: #8a8a8a; --fill: #2c2c2c }
}
* { box-sizing: border-box }
body { margin: 0 }
main { max-width: max(40rem, var(--page)); margin: 0 auto; padding: 1rem }
section + section { margin-top: 3rem }
h1, h2, h3, p { margin: 0; overflow-wrap: anywhere }
.head { display: flex; flex-wrap: wrap; justify-content: space-between; align-items: baseline; gap: 0 1em; border-bottom: 1.5pt solid var(--ink); padding-bottom: .2em }
h1, h2.first { font-size: 1.45em; line-height: 1.2; margin: 0 }
h2, h3 { font-size: 1.15em; margin: .9em 0 .2em; break-after: avoid }
.aside { font-weight: 400; color: var(--soft); margin-left: .6em }
.note { font-weight: 600; margin-top: .35em }
.words { font-style: italic; margin-top: .3em }
.closing { font-size: .85em; margin-top: .5em; color: var(--soft) }
table { width: 100%; border-collapse: collapse; table-layout: fixed; margin-top: .5em; border-bottom: .75pt solid var(--rule) }
th, td { text-align: left; vertical-align: top; font-weight: 400; padding: .28em 3pt; border-top: .5pt solid var(--rule); overflow-wrap: anywhere }
tr.more > td, tr.under > td { border-top: 0 }
tr.under > td { padding-top: 0 }
.beside { display: flex; flex-wrap: wrap; align-items: center; gap: 0 4pt }
caption { text-align: left; padding: .5em 0 .25em; overflow-wrap: anywhere; break-after: avoid }
caption b { font-size: 1.15em }
thead th { background: var(--fill); font-weight: 700; font-size: .85em }
.band th { background: var(--fill); font-weight: 700 }
tr.words td { font-style: italic }
.big { display: block; font-size: 1.1em; font-weight: 700 }
.plain { display: block }
.small { display: block; font-size: .88em }
.cue { display: block; font-size: .88em; font-style: italic; color: var(--soft) }
.boxes { display: flex; flex-wrap: wrap; gap: 3pt; padding-top: 1pt }
.box { flex: 1 1 2.1em; min-width: 2.1em; max-width: 4em; height: 1.9em; border: .75pt solid var(--ink); border-radius: 1.5pt }
.line { display: block; border-bottom: .75pt solid var(--ink); height: 1.5em; margin-right: 8pt }
.picture { display: block; padding: 2pt 0 }
.picture svg { display: block; max-width: 100%; height: auto }
.pictures { display: flex; flex-wrap: wrap; gap: .8em 1.4em; margin-top: .6em }
.fill-in { display: flex; flex-wrap: wrap; gap: 0 1em; font-size: .88em; margin-top: .3em }
.fill-in p { display: flex; align-items: flex-end; flex: 1 1 9em; min-height: 2em }
.fill-in .line { flex: 1; margin: 0 0 0 .5em; border-bottom-width: .5pt }
.running { max-width: max(40rem, var(--page)); margin: 0 auto; padding: 0 1rem 1.5rem; color: var(--soft); font-size: 8pt; overflow-wrap: anywhere }
@media print {
  @page { @bottom-left { font: 7.5pt system-ui, "DejaVu Sans", sans-serif; color: #444 }
    @bottom-right { font: 7.5pt system-ui, "DejaVu Sans", sans-serif; color: #444 } }
  main { max-width: none; padding: 0; font-size: var(--font) }
  .running { display: none }
  section + section { break-before: page; margin-top: 0 }
  section + section.flows { break-before: auto; margin-top: 2em }
  thead { display: table-header-group }
  tr, .pictures, .fill-in, .picture { break-inside: avoid }
  .band { break-after: avoid }
  tr.under { break-before: avoid }
}`;

/** On a telephone the cells of a row stand under each other. */
export const PHONE_STYLES = `@media screen and (max-width: 36rem) {
  main { font-size: 11pt }
  table, tbody, tr, th, td, caption { display: block; width: auto }
  colgroup { display: none }
  thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden }
  tr { border-top: .5pt solid var(--rule); padding: .3em 0 }
  tr.more, tr.under { border-top: 0; padding-top: 0 }
  th, td { border-top: 0; padding: .05em 3pt }
  td[data-title]:not(:empty)::before { content: attr(data-title); display: block; font-size: .75em; color: var(--soft) }
}`;

/** A table of many weeks stays one; the page is moved under the thumb. */
export const WIDE_PHONE_STYLES = `@media screen and (max-width: 36rem) {
  main { font-size: 11pt; width: 56rem }
}`;
