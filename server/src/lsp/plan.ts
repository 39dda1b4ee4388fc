import * as l10n from '@vscode/l10n';
import { z } from 'zod';
import { buildPlanDocument } from '../engine/print/build.js';
import { planToHtml } from '../engine/print/html.js';
import { planToPdfDefinition } from '../engine/print/pdfDefinition.js';
import { Refusal } from './refusal.js';
import type { OutputFile, Runtime } from './runtime.js';
import { statusOf } from './status.js';
import type { Scope } from './workspace.js';

/** What the extension sends with the command that writes a plan. */
const planRequest = z.object({
  /** Any file of the folder, or the folder itself. */
  uri: z.string(),
  /** Key of the client. */
  client: z.string(),
  /** Folder to write to; null: the one of the settings, inside the workspace folder. */
  folder: z.string().nullable().default(null),
});

export interface PlanAnswer {
  /** URIs of the files, in the order of the formats in the settings. */
  readonly files: readonly string[];
}

/** Reads the argument of the command; undefined when it is not what the command takes. */
export function readPlanRequest(value: unknown): z.infer<typeof planRequest> | undefined {
  return planRequest.safeParse(value).data;
}

/** Writes the printed plan of one client. Throws a `Refusal` in plain words when there is nothing to print. */
export async function writePlan(
  runtime: Runtime,
  scope: Scope,
  request: { readonly client: string; readonly folder: string | null },
): Promise<PlanAnswer> {
  const plan = scope.session.plan(request.client);
  if (!plan) throw new Refusal(unknownClient(scope, request.client));
  if (request.folder === null && !scope.isFolder) {
    throw new Refusal(l10n.t('This file lies in no folder. Say which folder the plan should be written to.'));
  }
  const today = runtime.today();
  const errors = scope.session.allFindings().filter(({ severity }) => severity === 'error').length;
  const document = buildPlanDocument(plan, scope.session.world(), {
    from: null,
    until: null,
    printedOn: today,
    errors,
  });
  const name = fileStem(plan.client.name);
  const files: OutputFile[] = [];
  for (const format of scope.settings.plan.formats) {
    if (format === 'html') files.push({ name: `${name}.html`, content: planToHtml(document) });
    else if (runtime.renderPdf) {
      const definition = planToPdfDefinition(document, new Date(`${today}T00:00:00Z`));
      files.push({ name: `${name}.pdf`, content: await runtime.renderPdf(definition) });
    }
  }
  const folder = request.folder ?? inFolder(scope.uri, scope.settings.plan.folder);
  try {
    return { files: await runtime.writeFiles(folder, files) };
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new Refusal(l10n.t('The folder cannot be written to: {0}', reason));
  }
}

/** A folder below another, by a path with `/` or `\`. `..` has no effect: plans stay inside the workspace folder. */
function inFolder(folder: string, path: string): string {
  const parts = path.split(/[\\/]+/).filter((part) => part !== '' && part !== '.' && part !== '..');
  return [folder.replace(/\/$/, ''), ...parts.map(encodeURIComponent)].join('/');
}

/** A name that every file system takes, and that a person recognises. */
function fileStem(name: string): string {
  const safe = name.replace(/[^\p{L}\p{N} ._-]+/gu, '-').replace(/^[ .]+|[ .]+$/g, '');
  return `${safe || 'client'} plan`;
}

function unknownClient(scope: Scope, client: string): string {
  const names = statusOf(scope, undefined).clients.map(({ name }) => name);
  if (names.length === 0) return l10n.t('No client is written here yet.');
  return l10n.t('There is no client "{0}" here. There are: {1}.', client, names.join(', '));
}
