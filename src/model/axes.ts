/** A value for each axis of the viewer's frame. */
export interface Axes {
  readonly right: number;
  readonly up: number;
}
