/** The burnt tape of a practice machine in the page: it is read with the pointer or the keys, as any tape. */
import { useRef } from 'preact/hooks';
import { Burn, burnHeight, burnScale, type OnTape } from '../../drawing/index.ts';
import type { PracticeView } from '../../model/index.ts';
import { moved, snapped, type Aim, type Readable } from './reading.ts';

interface BurntTapeProps {
  readonly tape: NonNullable<PracticeView['tape']>;
  readonly resolution: number;
  /** Pixels of the field. */
  readonly size: number;
  readonly behind: boolean;
  /** The blank that it is read for; absent once it is logged. */
  readonly asked: Readable | undefined;
  readonly aim: Aim | undefined;
  onAim(aim: Aim | undefined): void;
  onPlace(point: Aim | 'none'): void;
}

const CENTRE: Aim = { at: { right: 0, up: 0 }, isFine: false };

export function BurntTape({ tape, resolution, size, behind, asked, aim, onAim, onPlace }: BurntTapeProps) {
  const box = useRef<HTMLDivElement>(null);
  const scale = burnScale(tape, size, behind);
  const pointOf = ({ clientX, clientY }: MouseEvent): OnTape => {
    const { left, top } = box.current!.getBoundingClientRect();
    return scale.from({ x: clientX - left, y: clientY - top });
  };
  const aimed = (event: MouseEvent): Aim | undefined => {
    const point = pointOf(event);
    const isOnTape = Math.max(Math.abs(point.right), Math.abs(point.up)) <= scale.reach;
    return asked && isOnTape ? snapped(point, resolution, event.altKey) : undefined;
  };
  const pressed = (event: KeyboardEvent) => {
    if (!asked || event.ctrlKey || event.metaKey) return;
    const next = moved(aim ?? CENTRE, event, resolution, behind);
    if (next) onAim(next);
    else if (event.key === 'Enter' && aim) onPlace(aim);
    else if (event.key === 'c') onPlace(CENTRE);
    else if (event.key === 'n') onPlace('none');
    else return;
    event.preventDefault();
  };
  return (
    <div
      ref={box}
      class={asked ? 'tape burnt reading' : 'tape burnt'}
      style={{ width: `${size}px`, height: `${burnHeight(size)}px` }}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: it is read like an application
      tabIndex={0}
      role="application"
      aria-label={
        asked
          ? `Burnt tape on ${tape.station}. Read the mark at ${asked.name}: arrow keys move the cross, Enter logs it, C is the centre, N is none`
          : `Burnt tape on ${tape.station}, read and compared`
      }
      onPointerMove={(event) => onAim(aimed(event))}
      onPointerLeave={() => onAim(undefined)}
      onClick={(event) => {
        const point = aimed(event);
        if (point) onPlace(point);
      }}
      onKeyDown={pressed}
    >
      <Burn figure={tape} width={size} behind={behind} cursor={asked && aim?.at} />
    </div>
  );
}
