/** The target in the page: as wide as the page allows, with marks to select and to place. */
import { useRef, useState } from 'preact/hooks';
import { pointInWords, tapeScale, Target, type OnTape } from '../../drawing/index.ts';
import type { Axes, PanelView, Slot, TextPlace } from '../../model/index.ts';
import { useAvailableWidth } from './available-width.ts';

interface TapeProps {
  readonly view: PanelView;
  readonly behind: boolean;
  readonly selected: TextPlace | undefined;
  onSelect(mark: TextPlace): void;
  onPlace(place: TextPlace & Axes): void;
}

/** Pixels. */
const NARROWEST = 240;
const WIDEST = 460;

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one component and its handlers
export function Tape({ view, behind, selected, onSelect, onPlace }: TapeProps) {
  const { figure, slots, resolution } = view;
  const width = Math.min(WIDEST, Math.max(NARROWEST, useAvailableWidth()));
  const tape = useRef<HTMLDivElement>(null);
  const [placing, setPlacing] = useState<{ readonly slot: Slot; readonly at: OnTape }>();
  const scale = tapeScale(figure, width, behind);
  const begin = (slot: Slot) => {
    setPlacing(
      placing?.slot.path === slot.path ? undefined : { slot, at: { right: slot.right ?? 0, up: slot.up ?? 0 } },
    );
    tape.current?.focus();
  };
  const write = ({ slot: { cell, path } }: { readonly slot: Slot }, { right, up }: OnTape) => {
    onPlace({ cell, path, right, up });
    setPlacing(undefined);
  };
  const clicked = (event: MouseEvent) => {
    const box = tape.current!.getBoundingClientRect();
    if (placing)
      write(placing, snapped(scale.from({ x: event.clientX - box.left, y: event.clientY - box.top }), resolution));
  };
  const pressed = (event: KeyboardEvent) => {
    if (!placing) return;
    const step = STEPS[event.key];
    if (step)
      setPlacing({
        ...placing,
        at: snapped(
          {
            right: placing.at.right + (behind ? -1 : 1) * step[0] * resolution,
            up: placing.at.up + step[1] * resolution,
          },
          resolution,
        ),
      });
    else if (event.key === 'Enter') write(placing, placing.at);
    else if (event.key === 'Escape') setPlacing(undefined);
    else return;
    event.preventDefault();
  };
  return (
    <div>
      {slots.length > 0 && (
        // biome-ignore lint/a11y/useSemanticElements: a fieldset would draw a frame
        <div class="row" role="group" aria-label="Log Mark">
          <span>log mark:</span>
          {slots.map((slot) => (
            <button
              type="button"
              key={slot.path}
              aria-pressed={placing?.slot.path === slot.path}
              onClick={() => begin(slot)}
            >
              {slot.label}
            </button>
          ))}
        </div>
      )}
      {/* biome-ignore lint/a11y: while a mark is placed this is an application, at other times a picture */}
      <div
        ref={tape}
        class={placing ? 'tape placing' : 'tape'}
        tabIndex={placing ? 0 : -1}
        role={placing ? 'application' : undefined}
        aria-label={
          placing ? `Log mark at ${placing.slot.label}: arrow keys move it, Enter logs it, Escape cancels` : undefined
        }
        onClick={clicked}
        onKeyDown={pressed}
      >
        <Target
          figure={figure}
          width={width}
          behind={behind}
          selected={selected}
          onSelect={onSelect}
          cursor={placing?.at}
        />
      </div>
      <p aria-live="polite">
        {placing
          ? `${placing.slot.label}: ${pointInWords(placing.at, figure)}. Click on the tape, or move with the arrow keys; Enter logs it, Escape cancels.`
          : ''}
      </p>
    </div>
  );
}

const STEPS: Readonly<Record<string, readonly [number, number] | undefined>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Rounds to the resolution of readings, mm. */
function snapped({ right, up }: OnTape, step: number): OnTape {
  const to = (value: number) => Number((Math.round(value / step) * step).toFixed(6)) + 0;
  return { right: to(right), up: to(up) };
}
