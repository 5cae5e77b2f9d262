/** The tape in the page: a mark is read with the pointer or the keys, and it zooms about the pointer. */
import { useEffect, useRef, useState } from 'preact/hooks';
import {
  ABOVE,
  cursorInWords,
  fitted,
  Tape as Drawn,
  tapeHeight,
  tapeScale,
  zoomed,
  type OnTape,
  type TapeWindow,
} from '../../drawing/index.ts';
import { lengthsIn, type PanelView, type TextPlace } from '../../model/index.ts';
import { moved, snapped, type Aim, type Readable } from './reading.ts';

export interface TapeProps {
  readonly figure: PanelView['figure'];
  readonly resolution: number;
  /** Pixels of the field. */
  readonly size: number;
  readonly behind: boolean;
  readonly selected: TextPlace | undefined;
  /** The shot that is asked for, and where it is aimed. */
  readonly asked: Readable | undefined;
  readonly aim: Aim | undefined;
  readonly note: string | undefined;
  readonly covered: readonly string[] | undefined;
  /** What the scale belongs to: it is kept until this changes. */
  readonly scaleOf: string;
  onAim(aim: Aim | undefined): void;
  onPlace(point: Aim | 'none'): void;
  onSelect(mark: TextPlace): void;
  onCancel(): void;
}

/** By one turn of a wheel, one key, one click. */
const ZOOM = 1.25;
const CENTRE: Aim = { at: { right: 0, up: 0 }, isFine: false };

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one component and its handlers
export function Tape(props: TapeProps) {
  const { figure, resolution, size, behind, asked, aim, onAim, onPlace } = props;
  const box = useRef<HTMLDivElement>(null);
  const [window, setWindow, fit] = useWindow(figure, props.scaleOf);
  const scale = tapeScale(window, size, behind);
  const pointOf = ({ clientX, clientY }: MouseEvent): OnTape => {
    const { left, top } = box.current!.getBoundingClientRect();
    return scale.from({ x: clientX - left, y: clientY - top - ABOVE });
  };
  const zoom = (factor: number, about: OnTape = aim?.at ?? window.middle) =>
    setWindow(zoomed(window, factor, about, fit));
  useWheel(box, (event) => zoom(Math.exp(-event.deltaY / (event.ctrlKey ? 60 : 400)), pointOf(event)));
  const isField = (event: MouseEvent) =>
    asked !== undefined && !(event.target as Element).closest('.zoom') && scale.isInside(pointOf(event));
  const pointed = (event: MouseEvent) =>
    onAim(isField(event) ? snapped(pointOf(event), resolution, event.altKey) : undefined);
  const clicked = (event: MouseEvent) => {
    if (isField(event)) onPlace(snapped(pointOf(event), resolution, event.altKey));
  };
  const pressed = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey) return;
    const isOnMark = event.target !== box.current;
    const begin =
      aim ?? (asked?.right !== undefined ? { ...CENTRE, at: { right: asked.right, up: asked.up ?? 0 } } : CENTRE);
    const next = asked && moved(begin, event, resolution, behind);
    if (next) onAim(next);
    else if (event.key === 'Enter' && asked && aim && !isOnMark) onPlace(aim);
    else if (event.key === 'Escape') props.onCancel();
    else if (event.key === 'c' && asked) onPlace(CENTRE);
    else if (event.key === 'n' && asked) onPlace('none');
    else if (event.key === '+' || event.key === '=') zoom(ZOOM);
    else if (event.key === '-') zoom(1 / ZOOM);
    else if (event.key === '0') setWindow(fitted(figure));
    else if (event.key === '[' || event.key === ']') focusMark(box.current!, event.key === ']' ? 1 : -1);
    else return;
    event.preventDefault();
  };
  return (
    <div
      ref={box}
      class={asked ? 'tape reading' : 'tape'}
      style={{ width: `${size}px`, height: `${tapeHeight(size)}px` }}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: it is read like an application
      tabIndex={0}
      role="application"
      aria-label={labelOf(figure.station, asked)}
      onPointerMove={pointed}
      onPointerLeave={() => onAim(undefined)}
      onClick={clicked}
      onKeyDown={pressed}
    >
      <Drawn
        figure={figure}
        size={size}
        window={window}
        behind={behind}
        selected={props.selected}
        onSelect={props.onSelect}
        note={props.note}
        covered={props.covered}
        cursor={asked && aim && cursorOf(asked, aim, props)}
      />
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is no flexible box */}
      <div class="zoom" role="group" aria-label="Zoom">
        <button type="button" aria-label="Zoom out" onClick={() => zoom(1 / ZOOM, window.middle)}>
          −
        </button>
        <button type="button" onClick={() => setWindow(fitted(figure))}>
          Fit
        </button>
        <button type="button" aria-label="Zoom in" onClick={() => zoom(ZOOM, window.middle)}>
          +
        </button>
      </div>
    </div>
  );
}

function labelOf(station: string, asked: Readable | undefined): string {
  return asked
    ? `Tape on ${station}. Read the mark at ${asked.name}: arrow keys move it, Enter logs it, C is the centre, N is none`
    : `Tape on ${station}. Plus and minus zoom, 0 fits, brackets go from mark to mark`;
}

function cursorOf(asked: Readable, { at, isFine }: Aim, { figure, resolution }: TapeProps) {
  const [words, machine] = cursorInWords(at, figure, isFine);
  const step = resolution * (isFine ? 0.1 : 1);
  const stepWords = `step ${lengthsIn(figure.frame.units).given(step).replace(/ mm$/, '')}`;
  return {
    at,
    step,
    place: asked.place,
    words: [words, [machine, stepWords].filter(Boolean).join(' · ')] as const,
  };
}

/** The part of the tape that is drawn: set when `scaleOf` changes, then kept. Also what would be set now. */
function useWindow(
  figure: PanelView['figure'],
  scaleOf: string,
): [window: TapeWindow, set: (window: TapeWindow) => void, fit: TapeWindow] {
  const fit = fitted(figure);
  const kept = useRef<{ readonly of: string; readonly window: TapeWindow } | undefined>(undefined);
  const [, draw] = useState({});
  if (kept.current?.of !== scaleOf) kept.current = { of: scaleOf, window: fit };
  const set = (window: TapeWindow) => {
    kept.current = { of: scaleOf, window };
    draw({});
  };
  return [kept.current.window, set, fit];
}

/** Preact listens passively, and then the page would scroll. */
function useWheel(box: { readonly current: HTMLElement | null }, wheel: (event: WheelEvent) => void): void {
  const latest = useRef(wheel);
  latest.current = wheel;
  useEffect(() => {
    const turned = (event: WheelEvent) => {
      event.preventDefault();
      latest.current(event);
    };
    box.current!.addEventListener('wheel', turned, { passive: false });
  }, []);
}

function focusMark(box: HTMLElement, by: number): void {
  const marks = [...box.querySelectorAll<SVGElement>('.mark')];
  const at = marks.indexOf(document.activeElement as SVGElement & HTMLElement);
  marks[(at + by + (at < 0 && by < 0 ? 1 : 0) + marks.length) % marks.length]?.focus();
}
