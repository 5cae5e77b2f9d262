/** Turns in words, the same in messages and in cells. */

/** `1/4`, `1 1/16`, `2`: turns to the nearest thirty-second, the finest that a hand can do. */
export function turnsInWords(turns: number): string {
  const parts = Math.round(Math.abs(turns) * 32);
  const whole = Math.floor(parts / 32);
  const rest = parts % 32;
  if (rest === 0) return `${whole}`;
  const common = rest & -rest;
  return `${whole > 0 ? `${whole} ` : ''}${rest / common}/${32 / common}`;
}

/** `1/4 turn`, `1 turn`, `1 1/16 turns` */
export function amountInWords(turns: number): string {
  return `${turnsInWords(turns)} turn${Math.round(Math.abs(turns) * 32) > 32 ? 's' : ''}`;
}

/** The direction of a turn; 0 counts as in. */
export function sense(turns: number): 'in' | 'out' {
  return turns < 0 ? 'out' : 'in';
}

/**
 * The direction of the hand as you face the screw head: in is clockwise with a right-hand thread, and anticlockwise
 * with a left-hand one, which is named.
 */
export function clockSense(turns: number, hand: 'right' | 'left' = 'right'): string {
  const isClockwise = turns >= 0 === (hand === 'right');
  return `${isClockwise ? 'clockwise' : 'anticlockwise'}${hand === 'left' ? ': left-hand thread' : ''}`;
}

/** In a cell: `in 1/4`, `out 1 1/16 turn`. */
export function turnInCell(turns: number): string {
  const amount = turnsInWords(turns);
  return `${sense(turns)} ${amount}${/^\d+\/\d+$/.test(amount) ? '' : ' turn'}`;
}
