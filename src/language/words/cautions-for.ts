/** The cautions for the steps to do now: none unless they fire, or touch tube or lens. */
import { cautionsAt, FIRE_REMINDER, isShotKind, visitsIn, type CautionForm, type Step } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { machineAt } from '../book/machine-at.ts';

export interface Cautions {
  readonly fires: boolean;
  readonly lines: readonly string[];
}

/** @param wavelength of the laser, mm; absent: the default */
export function cautionsFor(steps: readonly Step[], wavelength?: number, form?: CautionForm): Cautions {
  const cautions = cautionsAt(wavelength, form);
  const { fires, parts } = dangersOf(steps, cautions);
  const lines = [...parts, ...(fires ? cautions.fire : [])];
  return { fires, lines: lines.length > 0 ? [...lines, ...cautions.defer] : [] };
}

/** The same in the visit that is open: those of a shot are a reminder once they were shown; those of parts stay. */
export function cautionsNow(book: Book, steps: readonly Step[], form?: CautionForm): Cautions {
  const wavelength = wavelengthOf(book);
  if (!hasFired(book)) return cautionsFor(steps, wavelength, form);
  const { fires, parts } = dangersOf(steps, cautionsAt(wavelength, form));
  return { fires, lines: [...parts, ...(fires ? [FIRE_REMINDER] : [])] };
}

/** Whether steps fire, and the cautions of the parts that they touch. */
function dangersOf(steps: readonly Step[], { tube, lens }: ReturnType<typeof cautionsAt>) {
  const isTube = steps.some((step) => (step.kind === 'shift' || step.kind === 'care') && step.part === 'tube');
  const isLens = steps.some(({ handlesLens }) => handlesLens);
  return {
    fires: steps.some(({ kind }) => kind === 'shoot'),
    parts: [...(isTube ? tube : []), ...(isLens ? lens : [])],
  };
}

/** Whether the laser was fired in the visit that is open: the cautions were shown then. */
function hasFired({ workbook: { entries } }: Book): boolean {
  const visit = visitsIn(entries).at(-1);
  return visit?.isEnded === false && entries.slice(visit.from).some(({ entry }) => isShotKind(entry.kind));
}

/** mm, of the machine in force at the end of the log. */
export function wavelengthOf(book: Book): number | undefined {
  return machineAt(book, Infinity)?.source.wavelength;
}
