/** A value with, where the user gave one (`44 mm ± 1 mm`), its standard uncertainty in the same unit. */
export interface Quantity {
  readonly value: number;
  readonly u?: number;
}

/** The machine's own directions, as one stands in front of it: x = right, y = rear, z = up. */
export type Direction = 'left' | 'right' | 'front' | 'rear' | 'up' | 'down';

/** A displacement in the machine's axes, mm: [x right, y rear, z up]. */
export type Displacement = readonly [x: number, y: number, z: number];
