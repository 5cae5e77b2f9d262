/** What is seen on a mount's face, in words. */
import { sense, turnsInWords, type ScrewsFigure, type ScrewSpot } from '../../model/index.ts';
import { mm } from '../number.ts';
import { pointInWords } from '../target/words.ts';

/** `B: in 1/4, clockwise; 11 mm at the rim` */
export function turnInFull({ name, turns }: ScrewSpot, { knob }: ScrewsFigure): string {
  const rim = knob === undefined ? '' : `; ${mm(Math.round(Math.abs(turns) * Math.PI * knob * 2) / 2)} mm at the rim`;
  return `${name}: ${sense(turns)} ${turnsInWords(turns)}, ${turns > 0 ? 'clockwise' : 'anticlockwise'}${rim}`;
}

/** `1/8 turn in moves the mark 1.2 right (machine left), 0.3 up mm` */
export function movesInWords({ moves }: ScrewSpot, { mark }: ScrewsFigure): string {
  if (!moves) return 'nobody has written down where it bears';
  const words = pointInWords({ right: Math.round(moves.right * 10) / 10, up: Math.round(moves.up * 10) / 10 }, mark);
  return `1/8 turn in moves the mark on ${mark.station}${mark.place === '' ? '' : ` (${mark.place})`} ${words === 'in the middle' ? 'hardly' : words}`;
}

/** One paragraph. */
export function mountInWords(figure: ScrewsFigure): string {
  const turned = figure.screws.filter(({ turns }) => turns !== 0);
  return [
    `Screws of ${figure.part}, ${figure.heads === 'behind' ? 'from behind the mirror' : 'from the beam side'}.`,
    turned.length === 0 ? 'Nothing to turn now.' : `Turn ${turned.map((screw) => turnInFull(screw, figure)).join('; ')}.`,
    ...figure.screws.map((screw) => `${screw.name}: ${movesInWords(screw, figure)}.`),
  ].join(' ');
}
