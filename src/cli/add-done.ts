/** Asks whether a step without marks is done. */
import { textInCell } from '../words/index.ts';
import { turnInCell, type Step } from '../model/index.ts';
import type { Adding } from './adding.ts';

/** The cell that logs it; `isWhole`: nothing of the step is left to do. */
interface Done {
  readonly cell: string;
  readonly isWhole: boolean;
  /** Part of it was typed, and may have to be typed again. */
  readonly isTyped?: true;
}

/** Undefined: it is not done. */
export async function askDone(adding: Adding, step: Step): Promise<Done | undefined> {
  const { options, dialogue, show } = adding;
  if (options.yes) return whole(adding, step);
  if (step.kind === 'check') step.items.forEach((item, k) => show(item, `  ${k + 1}  `));
  for (;;) {
    const typed = (await dialogue.ask(`Done [${formsOf(step)}]: `))?.trim().toLowerCase();
    if (typed === undefined || /^(n|no)$/.test(typed)) return undefined;
    if (/^(y|yes)$/.test(typed)) return whole(adding, step);
    const other =
      step.kind === 'check'
        ? part(adding, step, typed)
        : step.kind === 'turn'
          ? turned(adding, step, typed)
          : undefined;
    if (other) return other;
  }
}

function formsOf({ kind }: Step): string {
  if (kind === 'check') return 'y, n, or the numbers of those that are';
  return kind === 'turn' ? 'y, n, or what was turned instead, such as out 1/8' : 'y, n';
}

async function whole(adding: Adding, step: Step): Promise<Done | undefined> {
  if (step.kind !== 'release') return { cell: cellOf(adding, step), isWhole: true };
  const name = await signature(adding);
  return name === undefined
    ? undefined
    : { cell: cellOf(adding, step).replace(/^by: *$/m, () => `by: ${textInCell(name)}`), isWhole: true };
}

async function signature({ options, dialogue }: Adding): Promise<string | undefined> {
  let name = options.by;
  while (name === undefined || name.trim() === '') {
    name = await dialogue.ask('Signed off by (name): ');
    if (name === undefined) return undefined;
  }
  return name.trim();
}

/** A check by hand or eye may have no cell of its own. */
function cellOf({ book }: Adding, step: Step): string {
  if (step.cell !== undefined || step.kind !== 'check') return step.cell ?? '';
  const title = book.evaluation().verdict === 'within' ? 'before handing back' : 'inspection';
  return `checks: ${title}\ndone:\n${step.items.map((item) => `  - ${textInCell(item)}\n`).join('')}`;
}

/** Some of the checks, by their numbers: `1 3`. */
function part(adding: Adding, step: Extract<Step, { kind: 'check' }>, typed: string): Done | undefined {
  const numbers = typed.split(/[\s,]+/).map(Number);
  if (!numbers.every((number) => step.items[number - 1] !== undefined)) return undefined;
  const kept = step.items.map((item, k) => (numbers.includes(k + 1) ? `  - ${textInCell(item)}\n` : ''));
  const [head = ''] = cellOf(adding, step).split(/^ {2}- /m);
  return { cell: head + kept.join(''), isWhole: kept.every((line) => line !== '') };
}

/** What was turned instead, if it is a turn: the reader of the format reads the amount. */
function turned(adding: Adding, step: Extract<Step, { kind: 'turn' }>, typed: string): Done | undefined {
  const [, sense, amount] = /^(in|out)\s+([\w ./]+)$/.exec(typed) ?? [];
  if (sense === undefined || amount === undefined || isTooFar(amount)) return undefined;
  return {
    cell: cellOf(adding, step).replace(/: (?:in|out) [^}\n]*(?=\}\n)/, `: ${sense} ${amount.trim()}`),
    // The steps that follow were planned for the advised turn.
    isWhole: `${sense} ${amount.trim()}` === turnInCell(step.turns),
    isTyped: true,
  };
}

/** Turns beyond which a typed amount is taken for a slip: a mark is lost long before. */
const MOST_TURNS = 3;

function isTooFar(amount: string): boolean {
  return !/deg|flat|rim/.test(amount) && Number.parseFloat(amount) > MOST_TURNS && !/^\d+\s*\//.test(amount);
}
