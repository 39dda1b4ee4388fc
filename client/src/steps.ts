import * as vscode from 'vscode';

/** What a question was answered with: a value, or that the coach wants to go back. Undefined: she left. */
export type Answer<Value> = { readonly value: Value } | 'back' | undefined;

/** How a question is shown. */
export interface Frame {
  readonly title: string;
  readonly step: number;
  readonly totalSteps: number;
  /** Whether there is a question to go back to. */
  readonly back: boolean;
}

/** A question keeps its answer itself. It is skipped where it gives `skip`. */
export type Question = (frame: { readonly back: boolean }) => Promise<Answer<unknown> | 'skip'>;

/** Asks one question after the other, and the one before it where the coach wants. False: she left. */
export async function askAll(questions: readonly Question[]): Promise<boolean> {
  const asked: number[] = [];
  for (let at = 0; at < questions.length; ) {
    const answer = await questions[at]?.({ back: asked.length > 0 });
    if (answer === undefined) return false;
    if (answer === 'back') {
      at = asked.pop() ?? 0;
      continue;
    }
    if (answer !== 'skip') asked.push(at);
    at += 1;
  }
  return true;
}

/** What an input says while something is typed: why it cannot be taken, or how it is read. */
export interface Check {
  readonly problem: string | null;
  readonly words: string | null;
}

/** Asks for a line of text. It stays open while the coach looks elsewhere. */
export function askText(
  frame: Frame,
  options: { readonly prompt: string; readonly placeholder: string; readonly value: string },
  check: (text: string) => Promise<Check>,
): Promise<Answer<string>> {
  const input = vscode.window.createInputBox();
  Object.assign(input, options, { title: frame.title, step: frame.step, totalSteps: frame.totalSteps });
  let latest = 0;
  const look = async (): Promise<boolean> => {
    latest += 1;
    const asked = latest;
    const text = input.value;
    const { problem, words } = await check(text);
    if (asked !== latest) return false;
    input.validationMessage = problem ?? (words === null ? undefined : { message: words, severity: INFO });
    return problem === null;
  };
  return shown(input, frame, (done) => [
    input.onDidChangeValue((text) => {
      // An empty line is complained of only when it is sent.
      if (text.trim() === '') {
        latest += 1;
        input.validationMessage = undefined;
      } else void look();
    }),
    input.onDidAccept(async () => {
      if (await look()) done({ value: input.value.trim() });
    }),
  ]);
}

const INFO = vscode.InputBoxValidationSeverity.Info;

export interface Choice<Value> extends vscode.QuickPickItem {
  readonly value: Value;
}

/** Lets one of several be chosen. */
export async function askOne<Value>(
  frame: Frame,
  placeholder: string,
  items: readonly Choice<Value>[],
  before?: Value,
): Promise<Answer<Value>> {
  const pick = quickPick(frame, placeholder, items);
  const active = items.find(({ value }) => value === before);
  if (active) pick.activeItems = [active];
  return shown(pick, frame, (done) => [
    pick.onDidAccept(() => {
      const [chosen] = pick.selectedItems;
      if (chosen) done({ value: chosen.value });
    }),
  ]);
}

/** Lets several be chosen; at least one where `needed` says what is missing without. */
export async function askMany<Value>(
  frame: Frame,
  placeholder: string,
  items: readonly Choice<Value>[],
  before: readonly Value[],
  needed: string | null,
): Promise<Answer<readonly Value[]>> {
  const pick = quickPick(frame, placeholder, items);
  pick.canSelectMany = true;
  pick.selectedItems = items.filter(({ value }) => before.includes(value));
  return shown(pick, frame, (done) => [
    pick.onDidAccept(() => {
      const chosen = items.filter((item) => pick.selectedItems.includes(item));
      if (chosen.length > 0 || needed === null) done({ value: chosen.map(({ value }) => value) });
      else pick.placeholder = needed;
    }),
  ]);
}

function quickPick<Value>(
  frame: Frame,
  placeholder: string,
  items: readonly Choice<Value>[],
): vscode.QuickPick<Choice<Value>> {
  const pick = vscode.window.createQuickPick<Choice<Value>>();
  Object.assign(pick, { title: frame.title, step: frame.step, totalSteps: frame.totalSteps, placeholder });
  pick.items = items;
  pick.matchOnDescription = true;
  pick.matchOnDetail = true;
  return pick;
}

/** Shows an input until it is answered, left, or gone back from. */
function shown<Value>(
  input: vscode.QuickInput & {
    buttons: readonly vscode.QuickInputButton[];
    readonly onDidTriggerButton: vscode.Event<vscode.QuickInputButton>;
  },
  frame: Frame,
  listen: (done: (answer: Answer<Value>) => void) => readonly vscode.Disposable[],
): Promise<Answer<Value>> {
  input.ignoreFocusOut = true;
  if (frame.back) input.buttons = [vscode.QuickInputButtons.Back];
  return new Promise((resolve) => {
    const parts: vscode.Disposable[] = [];
    const done = (answer: Answer<Value>): void => {
      resolve(answer);
      vscode.Disposable.from(...parts, input).dispose();
    };
    parts.push(
      ...listen(done),
      input.onDidTriggerButton(() => done('back')),
      input.onDidHide(() => done(undefined)),
    );
    input.show();
  });
}
