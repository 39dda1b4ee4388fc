/** `stave plan`: the printed plan of a client. */
import path from 'node:path';
import { isValidIsoDate } from '../engine/dates.js';
import { buildPlanDocument } from '../engine/print/build.js';
import { planFileStem } from '../engine/print/fileName.js';
import { planToHtml } from '../engine/print/html.js';
import { planToPdfDefinition } from '../engine/print/pdfDefinition.js';
import { planOf } from './clients.js';
import { quoted, readWorkspace } from './files.js';
import { EXIT, type Io, Misuse } from './io.js';
import { makeFolder, type OutputFile, writeWhole } from './output.js';
import { counted, visible } from './text.js';

export const PLAN_FORMATS = ['html', 'pdf'] as const;
export type PlanFormat = (typeof PLAN_FORMATS)[number];

export interface PlanOptions {
  readonly for: string;
  readonly to: readonly PlanFormat[];
  readonly output: string;
  readonly from: string | null;
  readonly toDate: string | null;
  readonly in: string | null;
}

export async function plan(paths: readonly string[], options: PlanOptions, io: Io): Promise<number> {
  const from = dateOption('--from', options.from);
  const until = dateOption('--to-date', options.toDate);
  if (from !== null && until !== null && until < from) throw new Misuse('--to-date lies before --from.');
  const workspace = await readWorkspace(paths, io, { lookIn: options.in });
  const { session } = workspace;
  const clientPlan = planOf(workspace, options.for);
  const errors = session.allFindings().filter(({ severity }) => severity === 'error').length;
  const document = buildPlanDocument(clientPlan, session.world(), {
    from,
    until,
    printedOn: io.today,
    errors,
  });
  if (document.weeks.length === 0) {
    const dates = from === null && until === null ? '' : ' in these dates';
    throw new Misuse(`${visible(clientPlan.client.name)} has no sessions${dates}: nothing was written.`);
  }
  const folder = path.resolve(io.cwd, options.output);
  const stem = planFileStem(clientPlan.client.name);
  const files: OutputFile[] = [];
  for (const format of options.to) {
    const target = path.join(folder, `${stem}.${format}`);
    if (format === 'html') files.push({ path: target, content: planToHtml(document) });
    else {
      const { renderPdf } = await import('./pdf.js');
      files.push({
        path: target,
        content: await renderPdf(planToPdfDefinition(document, new Date(io.madeAtSeconds * 1000))),
      });
    }
  }
  await makeFolder(folder, options.output);
  await writeWhole(files);
  for (const file of files)
    io.out(`${visible(path.relative(io.cwd, file.path).split(path.sep).join('/'))}\n`);
  if (errors > 0) {
    io.err(
      `stave: the files have ${counted(errors, 'error')}; loads that rest on them are blank in the plan. \`stave check\` shows them.\n`,
    );
  }
  return EXIT.clean;
}

function dateOption(option: string, value: string | null): string | null {
  if (value === null || isValidIsoDate(value)) return value;
  throw new Misuse(`${option} takes a date such as 2026-12-07; ${quoted(value)} is none.`);
}
