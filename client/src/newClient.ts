import * as vscode from 'vscode';
import type { Server } from './server.js';
import { readFiles, readOffers, readReading, type StarterRead } from './starterMessages.js';
import { type Answer, askAll, askMany, askOne, askText, type Choice, type Frame } from './steps.js';
import type { Tour } from './tour.js';

/** What the coach has answered so far. */
interface Answers {
  folder: vscode.Uri | undefined;
  alias: string;
  born: string;
  kits: readonly string[];
  mainKit: string | undefined;
  readonly sets: string[];
  /** How the server read each set. */
  readonly read: (StarterRead | undefined)[];
  signedOff: readonly string[];
}

const SETS = 3;
const TOTAL = 8;

/** The command `stave.newClient`: asks about a client, and writes her file and her kit into a folder. */
export class NewClient {
  constructor(
    private readonly server: Server,
    private readonly tour: Tour,
    /** The coach's home folder; undefined where the extension runs without one. */
    private readonly home: vscode.Uri | undefined,
  ) {}

  /** Returns the client's file, or undefined when the coach left or nothing could be written. */
  async run(): Promise<vscode.Uri | undefined> {
    const answers: Answers = {
      ...{ folder: undefined, alias: '', born: '', kits: [], mainKit: undefined, sets: [], read: [] },
      signedOff: [],
    };
    try {
      return (await this.ask(answers)) ? await this.write(answers) : undefined;
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      void vscode.window.showErrorMessage(vscode.l10n.t('Nothing was written. {0}', reason));
      return undefined;
    }
  }

  private ask(answers: Answers): Promise<boolean> {
    const frame = (step: number, back: boolean, title: string): Frame => ({
      ...{ title, step, totalSteps: TOTAL, back },
    });
    return askAll([
      async ({ back }) => {
        const answer = await this.askFolder(
          frame(1, back, vscode.l10n.t('New client: where to keep the files?')),
        );
        if (typeof answer === 'object') answers.folder = answer.value;
        return answer;
      },
      async ({ back }) => {
        const options = {
          prompt: vscode.l10n.t('An alias keeps her health data hers: files and plans carry this name.'),
          placeholder: vscode.l10n.t('Heron'),
          value: answers.alias,
        };
        const answer = await askText(
          frame(2, back, vscode.l10n.t('New client: what do you call her here?')),
          options,
          (text) => this.check('alias', text, answers),
        );
        if (typeof answer === 'object') answers.alias = answer.value;
        return answer;
      },
      async ({ back }) => {
        const options = {
          prompt: vscode.l10n.t('Some cautions depend on her age. Leave it empty to leave it out.'),
          placeholder: '1968',
          value: answers.born,
        };
        const answer = await askText(
          frame(3, back, vscode.l10n.t('{0}: year of birth', answers.alias)),
          options,
          (text) => this.check('born', text, answers),
        );
        if (typeof answer === 'object') answers.born = answer.value;
        return answer;
      },
      async ({ back }) => {
        const answer = await this.askKits(
          frame(4, back, vscode.l10n.t('{0}: what is there to lift?', answers.alias)),
          answers,
        );
        if (typeof answer === 'object') answers.kits = answer.value;
        return answer;
      },
      async ({ back }) => {
        if (answers.kits.length < 2) return 'skip';
        const items = answers.kits.map((name) => ({ label: name, value: name }));
        const title = vscode.l10n.t('{0}: where does she train mostly?', answers.alias);
        const placeholder = vscode.l10n.t('Loads are made of what is there.');
        const answer = await askOne(frame(4, back, title), placeholder, items, answers.mainKit);
        if (typeof answer === 'object') answers.mainKit = answer.value;
        return answer;
      },
      ...Array.from({ length: SETS }, (_, index) => async ({ back }: { back: boolean }) => {
        // After an empty one there are no more.
        if (index > 0 && !answers.sets[index - 1]) return 'skip' as const;
        const title = vscode.l10n.t('{0}: a set she did lately ({1} of {2})', answers.alias, index + 1, SETS);
        return this.askSet(frame(5 + index, back, title), answers, index);
      }),
      async ({ back }) => {
        const answer = await this.askSignedOff(
          frame(TOTAL, back, vscode.l10n.t('{0}: which have you seen her do well?', answers.alias)),
          answers,
        );
        if (typeof answer === 'object') answers.signedOff = answer.value;
        return answer;
      },
    ]);
  }

  private async askFolder(frame: Frame): Promise<Answer<vscode.Uri>> {
    const items: Choice<vscode.Uri | null>[] = (vscode.workspace.workspaceFolders ?? []).map((folder) => ({
      label: `$(folder-opened) ${folder.name}`,
      description: vscode.l10n.t('the folder that is open'),
      value: folder.uri,
    }));
    const fresh = this.home && (await newFolderIn(this.home));
    if (fresh) {
      items.push({
        label: `$(new-folder) ${vscode.l10n.t('A new folder in your home folder')}`,
        description: fresh.fsPath,
        value: fresh,
      });
    }
    items.push({ label: `$(folder) ${vscode.l10n.t('Choose a folder…')}`, value: null });
    const placeholder = vscode.l10n.t('They stay on this disk. Nothing is sent anywhere.');
    for (;;) {
      const answer = await askOne(frame, placeholder, items);
      if (typeof answer !== 'object' || answer.value !== null) return answer as Answer<vscode.Uri>;
      const [picked] =
        (await vscode.window.showOpenDialog({
          canSelectFiles: false,
          canSelectFolders: true,
          title: vscode.l10n.t('Folder for clients and programs'),
          openLabel: vscode.l10n.t('Keep them here'),
        })) ?? [];
      // Left without a folder: the question stands again.
      if (picked) return { value: picked };
    }
  }

  private async askKits(frame: Frame, answers: Answers): Promise<Answer<readonly string[]>> {
    const offers = readOffers(
      await this.server.request('stave/starter/offers', { folder: address(answers) }),
    );
    const items = (offers?.kits ?? []).map(({ name, about, known }) => ({
      label: name,
      description: known ? vscode.l10n.t('written here already') : about,
      value: name,
    }));
    const placeholder = vscode.l10n.t('Tick what comes nearest, then OK. Change it later.');
    const needed = vscode.l10n.t('Tick at least one, with the mouse or the space bar.');
    return askMany(frame, placeholder, items, answers.kits, needed);
  }

  private async askSet(frame: Frame, answers: Answers, index: number): Promise<Answer<string>> {
    const examples = ['goblet squat 8kg 10 r3', 'back squat 40kg 8 r2', 'push-up 6 r2'];
    const options = {
      prompt:
        index === 0
          ? vscode.l10n.t(
              'Movement, load, reps, and r with how many more she could have done: her loads follow from it. Empty: go on without.',
            )
          : vscode.l10n.t('Another movement? Empty: that is all.'),
      placeholder: vscode.l10n.t('such as {0}', examples[index] ?? ''),
      value: answers.sets[index] ?? '',
    };
    const answer = await askText(frame, options, async (text) => {
      if (text.trim() === '') return { problem: null, words: null };
      const read = await this.check('set', text, answers);
      answers.read[index] = read;
      return read;
    });
    if (typeof answer === 'object') answers.sets[index] = answer.value;
    return answer;
  }

  /** Asked only for movements that want a sign-off before they are loaded. */
  private async askSignedOff(frame: Frame, answers: Answers): Promise<Answer<readonly string[]> | 'skip'> {
    const needs = answers.read.flatMap((read, index) =>
      answers.sets[index] && read?.needs ? [read.needs] : [],
    );
    const patterns = [...new Set(needs.map(({ pattern }) => pattern))];
    if (patterns.length === 0) {
      answers.signedOff = [];
      return 'skip';
    }
    const items = patterns.map((pattern) => ({
      label: pattern,
      description: needs
        .filter((need) => need.pattern === pattern)
        .map(({ movement }) => movement)
        .join(', '),
      value: pattern,
    }));
    const placeholder = vscode.l10n.t('Tick those to load; the others wait for your sign-off.');
    return askMany(frame, placeholder, items, answers.signedOff, null);
  }

  private async check(field: string, text: string, answers: Answers): Promise<StarterRead> {
    const asked = { folder: address(answers), field, text };
    const read = readReading(await this.server.request('stave/starter/read', asked).catch(() => null));
    return (
      read ?? {
        problem: vscode.l10n.t('The server gave no answer; its log may say why.'),
        words: null,
        needs: null,
      }
    );
  }

  private async write(answers: Answers): Promise<vscode.Uri | undefined> {
    const { folder, alias, born, kits, mainKit, signedOff } = answers;
    if (!folder) return undefined;
    const empty = answers.sets.findIndex((text) => !text);
    const sets = answers.sets.slice(0, empty < 0 ? SETS : empty);
    const ordered = [...kits].sort((a, b) => Number(b === mainKit) - Number(a === mainKit));
    const request = { folder: folder.toString(), alias, born, kits: ordered, sets, signedOff };
    const made = readFiles(await this.server.request('stave/starter/client', request));
    if (!made) throw new Error(vscode.l10n.t('The server gave no answer; its log may say why.'));
    const [own] = await writeStarterFiles(folder, made.files);
    if (own) await this.tour.arrive({ folder: folder.toString(), file: own.toString(), client: made.client });
    return own;
  }
}

function address({ folder }: Answers): string | null {
  return folder?.toString() ?? null;
}

/** A folder that is not there yet: `Stave`, `Stave 2` … */
async function newFolderIn(home: vscode.Uri): Promise<vscode.Uri | undefined> {
  for (let number = 1; number < 100; number += 1) {
    const folder = vscode.Uri.joinPath(home, number === 1 ? 'Stave' : `Stave ${number}`);
    const there = await vscode.workspace.fs.stat(folder).then(
      () => true,
      () => false,
    );
    if (!there) return folder;
  }
  return undefined;
}

/** Writes new files into a folder; one that is there already is never written over. */
export async function writeStarterFiles(
  folder: vscode.Uri,
  files: readonly { readonly path: string; readonly text: string }[],
): Promise<vscode.Uri[]> {
  const targets = files.map(({ path }) => vscode.Uri.joinPath(folder, ...path.split('/')));
  for (const target of targets) {
    const there = await vscode.workspace.fs.stat(target).then(
      () => true,
      () => false,
    );
    if (there)
      throw new Error(vscode.l10n.t('{0} is there already.', vscode.workspace.asRelativePath(target)));
  }
  for (const [index, target] of targets.entries()) {
    await vscode.workspace.fs.createDirectory(vscode.Uri.joinPath(target, '..'));
    await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(files[index]?.text ?? ''));
  }
  return targets;
}
