/** One question in a box of the editor, with a way back to the previous one. */
import { QuickInputButtons, window, type Disposable, type QuickInput, type QuickPickItem } from 'vscode';

/** The user goes back one question. */
export const BACK = Symbol('back');
/** Undefined: the user cancelled. */
export type Reply<T> = T | typeof BACK | undefined;

/** The position of a question among the others. */
export interface Place {
  readonly title: string;
  readonly step: number;
  readonly totalSteps: number;
}

export interface Choice<T> extends QuickPickItem {
  readonly value: T;
}

export function choose<T>(place: Place, placeholder: string, choices: readonly Choice<T>[]): Promise<Reply<T>> {
  const pick = window.createQuickPick<Choice<T>>();
  pick.items = choices;
  pick.placeholder = placeholder;
  pick.matchOnDetail = true;
  return replyTo(pick, place, () => pick.selectedItems[0]?.value);
}

/** @param fault returns what is wrong with a text, or undefined */
export function write(
  place: Place,
  prompt: string,
  value: string,
  fault: (text: string) => string | undefined,
): Promise<Reply<string>> {
  const box = window.createInputBox();
  box.prompt = prompt;
  box.value = value;
  const check = () => (box.validationMessage = fault(box.value));
  const checking = box.onDidChangeValue(check);
  return replyTo(box, place, () => (check() === undefined ? box.value : undefined)).finally(() => checking.dispose());
}

type QuestionInput = QuickInput &
  Pick<ReturnType<typeof window.createInputBox>, 'buttons' | 'onDidTriggerButton' | 'onDidAccept'>;

/** @param answer returns undefined until there is an answer that can be accepted */
function replyTo<T>(
  input: QuestionInput | ReturnType<typeof window.createQuickPick<Choice<T>>>,
  place: Place,
  answer: () => T | undefined,
): Promise<Reply<T>> {
  Object.assign(input, place, { ignoreFocusOut: true, buttons: place.step > 1 ? [QuickInputButtons.Back] : [] });
  const listeners: Disposable[] = [];
  return new Promise<Reply<T>>((resolve) => {
    listeners.push(
      input.onDidAccept(() => {
        const given = answer();
        if (given !== undefined) resolve(given);
      }),
      input.onDidTriggerButton(() => resolve(BACK)),
      input.onDidHide(() => resolve(undefined)),
    );
    input.show();
  }).finally(() => {
    for (const listener of listeners) listener.dispose();
    input.dispose();
  });
}
