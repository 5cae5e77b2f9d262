/** The shots of the station: what was read where, which one is asked for, and what the lines on the tape are. */
import { cursorInWords, footprintOf, lettersOf, Sign } from '../../drawing/index.ts';
import { lengthsIn, type PanelShot, type PanelView } from '../../model/index.ts';
import { isReadable, keyOf, type Aim, type Readable } from './reading.ts';

interface ShotsProps {
  readonly view: PanelView;
  readonly asked: Readable | undefined;
  readonly aim: Aim | undefined;
  /** Earlier rounds are drawn. */
  readonly whole: boolean;
  onChoose(shot: PanelShot): void;
  onPlace(point: Aim | 'none'): void;
}

const CENTRE: Aim = { at: { right: 0, up: 0 }, isFine: false };

export function Shots(props: ShotsProps) {
  const { view, asked, aim, onChoose, onPlace } = props;
  const { figure, shots, measured } = view;
  const letters = lettersOf(figure.places);
  return (
    <section class="shots" aria-label={`Shots of ${figure.station}`} onKeyDown={upAndDown}>
      {shots.map((shot) => {
        const isAsked = asked !== undefined && isReadable(shot) && keyOf(shot) === keyOf(asked);
        const key = shot.slot ? `${shot.slot.cell} ${shot.slot.path}` : `place ${shot.place}`;
        return (
          <div key={key}>
            <button
              type="button"
              class={isAsked ? 'shot asked' : 'shot'}
              aria-pressed={isAsked}
              onClick={() => onChoose(shot)}
            >
              <svg class="figure" viewBox="-11 -11 22 22" width="22" height="22" aria-hidden="true">
                <Sign x={0} y={0} place={shot.place} letter={letters[shot.place]!} hollow={shot.state !== 'read'} />
              </svg>
              <span class="what">
                <span class="place">{`${shot.name}${shot.state === 'stale' ? ' · stale' : ''}`}</span>
                <Lines shot={shot} aim={isAsked ? aim : undefined} figure={figure} />
              </span>
            </button>
            {isAsked && (
              <div class="row">
                <button type="button" onClick={() => onPlace(CENTRE)}>
                  Centre
                </button>
                <button type="button" onClick={() => onPlace('none')}>
                  None
                </button>
              </div>
            )}
          </div>
        );
      })}
      {measured.length > 0 && (
        <ul class="measured">
          {measured.map(({ words, isLimit }) => (
            <li key={words} class={isLimit ? 'limit' : 'pale'}>
              {words}
            </li>
          ))}
        </ul>
      )}
      <Key {...props} />
    </section>
  );
}

/** The value under the pointer stands in the list as it would be logged. */
function Lines({
  shot,
  aim,
  figure,
}: {
  readonly shot: PanelShot;
  readonly aim: Aim | undefined;
  readonly figure: PanelView['figure'];
}) {
  if (aim) {
    const [reading, machine] = cursorInWords(aim.at, figure, aim.isFine);
    const [, across, upward] = /^(\S+ \S+) (.*)$/.exec(reading) ?? [undefined, reading, ''];
    return (
      <>
        <span class="reading">
          <b>{across}</b> <small>{machine}</small>
        </span>
        <span class="reading">
          <b>{upward || ' '}</b>
        </span>
        <small class="under">under the pointer</small>
      </>
    );
  }
  return (
    <>
      {shot.lines.map(({ words, machine }, k) => (
        <span class="reading" key={k}>
          {shot.state === 'read' ? <b>{words}</b> : words} {machine && <small>{machine}</small>}
        </span>
      ))}
    </>
  );
}

/** Up and down go from row to row. */
function upAndDown(event: KeyboardEvent & { readonly currentTarget: HTMLElement }): void {
  const way = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  const rows = [...event.currentTarget.querySelectorAll<HTMLElement>('.shot')];
  const at = rows.indexOf(document.activeElement as HTMLElement);
  if (way === 0 || at < 0) return;
  event.preventDefault();
  rows[(at + way + rows.length) % rows.length]!.focus();
}

/** Only kinds of line: what has a name at its place needs no key. */
function Key({ view: { figure }, whole }: ShotsProps) {
  const { marks, halves, expected, frame } = figure;
  const footprint = footprintOf(figure);
  const isStale = marks.some(({ age }) => age === 'stale');
  const rows = [
    marks.some(({ age }) => age === 'fresh') && [<Reading />, 'mark, ring = 95 % of its reading'],
    isStale && [<circle class="ink" cx="11" cy="8" r="5" stroke-width="1.5" />, 'hollow: stale, no longer holds'],
    halves.length > 0 && [<path class="ink" d="M3 8h16" stroke-width="1.5" />, 'one direction read: on this line'],
    expected.length > 0 && [<Predicted />, 'predicted, 95 %'],
    whole && marks.some(({ age }) => age === 'earlier') && [<Trail />, 'as found, dotted since'],
    footprint && [
      <circle cx="11" cy="8" r="6.5" style={{ fill: 'var(--ink)' }} fill-opacity="0.15" />,
      `beam ⌀ ${lengthsIn(frame.units).read(footprint.beam)} at the worst mark${footprint.isCut ? '; hatched: cut off' : ''}`,
    ],
  ].filter((row) => row !== false && row !== undefined);
  if (rows.length === 0) return null;
  return (
    <ul class="key">
      {rows.map((row) => {
        const [sign, words] = row as [preact.JSX.Element, string];
        return (
          <li key={words}>
            <svg class="figure" viewBox="0 0 22 16" width="22" height="16" aria-hidden="true">
              {sign}
            </svg>
            <span>{words}</span>
          </li>
        );
      })}
    </ul>
  );
}

function Reading() {
  return (
    <g style={{ fill: 'var(--l0)' }}>
      <circle cx="11" cy="8" r="6" fill-opacity="0.25" />
      <circle cx="11" cy="8" r="2" />
    </g>
  );
}

function Predicted() {
  return (
    <g class="ink" stroke-width="1.5">
      <ellipse cx="11" cy="8" rx="9.5" ry="6" stroke-dasharray="3.5 2.5" />
      <path d="M8.5 5.5l5 5m0 -5l-5 5" />
    </g>
  );
}

function Trail() {
  return (
    <g class="ink" stroke-width="1.4">
      <circle cx="5" cy="8" r="3.5" />
      <path d="M9 8h12" stroke-dasharray="1.2 3" stroke-linecap="round" />
    </g>
  );
}
