/** The cautions for the steps to do now: none unless they fire, or touch tube or lens. */
import { cautionsAt, isShotKind, visitsIn, type CautionForm, type Step } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { machineAt } from '../book/machine-at.ts';

/** @param wavelength of the laser, mm; absent: the default */
export function cautionsFor(
  steps: readonly Step[],
  wavelength?: number,
  form?: CautionForm,
): { readonly fires: boolean; readonly lines: readonly string[] } {
  const cautions = cautionsAt(wavelength, form);
  const fires = steps.some(({ kind }) => kind === 'shoot');
  const isTube = steps.some((step) => (step.kind === 'shift' || step.kind === 'care') && step.part === 'tube');
  const isLens = steps.some(({ handlesLens }) => handlesLens);
  const lines = [...(isTube ? cautions.tube : []), ...(isLens ? cautions.lens : []), ...(fires ? cautions.fire : [])];
  return { fires, lines: lines.length > 0 ? [...lines, ...cautions.defer] : [] };
}

/** Whether the laser was fired in the visit that is open: its cautions were shown then. */
export function hasFired({ workbook: { entries } }: Book): boolean {
  const visit = visitsIn(entries).at(-1);
  return visit?.isEnded === false && entries.slice(visit.from).some(({ entry }) => isShotKind(entry.kind));
}

/** mm, of the machine in force at the end of the log. */
export function wavelengthOf(book: Book): number | undefined {
  return machineAt(book, Infinity)?.source.wavelength;
}
