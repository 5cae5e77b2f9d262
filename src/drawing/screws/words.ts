/** A mount's face in words. */
import {
  clockSense,
  cornerAt,
  lengthsIn,
  sense,
  turnsInWords,
  type ScrewsFigure,
  type DrawnScrew,
} from '../../model/index.ts';
import { pointInWords } from '../target/words.ts';

/** `B (lower right): in 1/4, clockwise; 11 mm at the rim` */
export function turnInFull(screw: DrawnScrew, { knob, mark, hand }: ScrewsFigure): string {
  const { turns } = screw;
  const rim =
    knob === undefined ? '' : `; ${lengthsIn(mark.frame.units).rim(Math.abs(turns) * Math.PI * knob)} at the rim`;
  return `${screwInWords(screw)}: ${sense(turns)} ${turnsInWords(turns)}, ${clockSense(turns, hand)}${rim}`;
}

/** `B (lower right)`; the name alone if the workbook does not give its place. */
function screwInWords({ name, place }: DrawnScrew): string {
  const corner = place && cornerAt(place.right, place.up);
  return corner === undefined ? name : `${name} (${corner})`;
}

/** `1/8 turn in moves the mark 1.2 right (machine left), 0.3 up mm` */
export function movesInWords({ moves }: DrawnScrew, { mark, hand }: ScrewsFigure): string {
  if (!moves) return 'its place is not in the workbook';
  const words = pointInWords({ right: Math.round(moves.right * 10) / 10, up: Math.round(moves.up * 10) / 10 }, mark);
  return `1/8 turn in${hand === 'left' ? ` (${clockSense(1, hand)})` : ''} moves the mark on ${mark.station}${mark.place === '' ? '' : `, ${mark.place}:`} ${words === 'centred' ? 'hardly' : words}`;
}

/** One paragraph. */
export function mountInWords(figure: ScrewsFigure): string {
  const turned = figure.screws.filter(({ turns }) => turns !== 0);
  return [
    `Screws of ${figure.part}, ${figure.heads === 'behind' ? 'from behind the mirror' : 'from the beam side'}.`,
    turned.length === 0
      ? 'Nothing to turn now.'
      : `Turn ${turned.map((screw) => turnInFull(screw, figure)).join('; ')}.`,
    ...figure.screws.map((screw) => `${screw.name}: ${movesInWords(screw, figure)}.`),
  ].join(' ');
}
