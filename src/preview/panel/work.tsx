/** The place to work: strip, path, bar and tape keep their places; what the state changes stands below or beside. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type {
  ClosingSheet,
  FromPanel,
  PanelOptions,
  PanelShot,
  PanelView,
  PracticeView,
  TextPlace,
} from '../../model/index.ts';
import { Bar } from './bar.tsx';
import { Bench } from './bench.tsx';
import { BurntTape } from './burnt-tape.tsx';
import { Closing } from './closing.tsx';
import { DisclosureButtons, Opened, type Disclosure } from './disclosures.tsx';
import { layoutFor, marginOf, PATH_WITHOUT_WORDS } from './layout.ts';
import type { PanelState } from './panel-state.ts';
import { PRACTICE_STRIP, PracticeBench, PracticeStrip } from './practice.tsx';
import { keyOf, type Readable } from './reading.ts';
import { Shots } from './shots.tsx';
import { Stations } from './stations.tsx';
import { Strip } from './strip.tsx';
import { Tape } from './tape.tsx';
import { usePageSize } from './use-size.ts';
import { useReading } from './use-reading.ts';

export interface WorkProps {
  readonly file: string;
  readonly view: PanelView;
  readonly options: PanelOptions;
  readonly kept: PanelState;
  readonly selected: TextPlace | undefined;
  /** Shown instead of the tape until something changes. */
  readonly closing: ClosingSheet | undefined;
  request(next: PanelOptions): void;
  keep(part: PanelState): void;
  send(message: FromPanel): void;
}

/** Pixels: the widest that a figure of the disclosures is drawn. */
const FIGURE = { narrowest: 240, widest: 300 };
/** After as many marks the keys are known. */
const KNOWN = 3;

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the page from top to bottom
export function Work({ file, view, options, kept, selected, closing, request, keep, send }: WorkProps) {
  const { width, height } = usePageSize();
  const { practice } = view;
  const layout = layoutFor(width, height - (practice ? PRACTICE_STRIP : 0));
  const { figure, now, advised } = view;
  const { station, round } = figure;
  const [ticked, setTicked] = useState<readonly number[]>([]);
  useEffect(() => setTicked([]), [now.checks?.lines.join('')]);
  const { whole = false, behind = false, open = [], keyed = 0 } = kept;
  const reading = useReading(view, send, () => keep({ keyed: keyed + 1 }));
  const [left, setLeft] = useState<readonly string[]>([]);
  const { asked, aim } = reading;
  const burnt = practice && burntFor(practice, station, asked);
  const isBlank = asked !== undefined && practice?.blanks.some(({ cell }) => cell === asked.slot.cell) === true;
  const isSettling = useSettling(view);
  const here = { ...options, station };
  const isReading = now.sign.act === 'read' && view.shots.some(({ slot, state }) => slot && state === 'open');
  const isTrial = options.turns !== undefined && !areSame(options.turns, advised);
  const drawn = whole ? figure : { ...figure, marks: figure.marks.filter(({ age }) => age !== 'earlier') };

  const tape = burnt ? (
    <BurntTape
      tape={burnt}
      resolution={view.resolution}
      size={layout.tape}
      behind={behind}
      asked={burnt.compared ? undefined : asked}
      aim={aim}
      onAim={reading.aimAt}
      onPlace={reading.place}
    />
  ) : (
    <Tape
      figure={drawn}
      resolution={view.resolution}
      size={layout.tape}
      behind={behind}
      selected={selected}
      // A tape of a practice machine is read when it is burnt.
      asked={practice ? undefined : asked}
      aim={aim}
      note={isTrial ? 'trial, not logged' : undefined}
      covered={coverOf(view)}
      scaleOf={`${station} ${round} ${whole}`}
      onAim={reading.aimAt}
      onPlace={reading.place}
      onSelect={({ cell, path }) => send({ type: 'select', cell, path })}
      onCancel={reading.cancel}
    />
  );
  const choose = (shot: PanelShot) => {
    reading.choose(shot);
    if (shot.mark) send({ type: 'select', ...shot.mark, quietly: true });
  };
  const shots = <Shots view={view} asked={asked} aim={aim} whole={whole} onChoose={choose} onPlace={reading.place} />;
  const toggle = (which: Disclosure) => {
    const next = open.includes(which) ? open.filter((one) => one !== which) : [...open, which];
    keep({ open: next });
    if (which === 'visits') request({ ...here, visits: next.includes('visits') });
  };
  const disclosures = <DisclosureButtons view={view} open={open} onToggle={toggle} />;
  const rest = (
    <>
      {layout.mode !== 'middle' && shots}
      {practice && !now.checks && (
        <PracticeBench
          practice={practice}
          asked={isBlank ? asked : undefined}
          isFired={burnt !== undefined && !burnt.compared}
          isAimed={aim !== undefined}
          onFire={(expected) => asked && send({ type: 'fire', ...asked.slot, expected })}
          onLog={() => aim && reading.place(aim)}
          onShoot={() => send({ type: 'shoot' })}
          onAsk={() => send({ type: 'askAdvice' })}
          onClose={() => send({ type: 'closing' })}
        />
      )}
      <Bench
        view={view}
        options={options}
        ticked={ticked}
        more={left}
        isReading={now.sign.act === 'read'}
        areKeysKnown={keyed >= KNOWN}
        width={Math.min(FIGURE.widest, width - 2 * marginOf(width) - (layout.mode === 'wide' ? layout.tape + 32 : 4))}
        onTick={setTicked}
        onTry={(turns) => request({ ...here, round: undefined, turns })}
        onLogTried={() => {
          request({ ...here, turns: undefined });
          send({ type: 'addTried' });
        }}
      />
      {layout.mode !== 'wide' && disclosures}
      <Opened
        view={view}
        open={open}
        width={Math.max(FIGURE.narrowest, Math.min(FIGURE.widest, width - 2 * marginOf(width) - 16))}
        onToggle={toggle}
        onMove={(legs) => request({ ...here, legs })}
      />
    </>
  );
  return (
    <div
      class={`work ${layout.mode} ${layout.pinned === 'strip' ? 'low' : ''} ${layout.path === PATH_WITHOUT_WORDS ? 'wordless' : ''} ${isSettling ? 'settling' : ''}`}
      style={{
        '--margin': `${marginOf(width)}px`,
        '--strip': `${layout.strip}px`,
        '--path': `${layout.path}px`,
        '--tape-size': `${layout.tape}px`,
      }}
    >
      <h1 class="hidden">{`Targets: ${file}`}</h1>
      {practice && <PracticeStrip practice={practice} />}
      {!closing && (
        <Strip
          now={now}
          isSettling={isSettling}
          width={width}
          ticked={ticked.length}
          onFit={setLeft}
          onLog={(way) => send(now.log === 'checks' ? { type: 'addChecks', done: ticked } : { type: 'addStep', way })}
        />
      )}
      {closing && practice ? (
        <Closing
          sheet={closing}
          width={width - 2 * marginOf(width)}
          onAgain={(level) => send({ type: 'practise', level })}
          onBack={() => request(here)}
        />
      ) : (
        <div class="under">
          <Stations
            stations={view.stations}
            shown={station}
            onChoose={(name) => request({ station: name, legs: options.legs, visits: options.visits })}
          />
          <Bar
            figure={figure}
            note={noteOf(view, isReading, isTrial, layout.mode === 'narrow')}
            isReading={isReading}
            isNarrow={layout.mode === 'narrow'}
            whole={whole}
            behind={behind}
            onRound={(next) => request({ station, round: next, legs: options.legs, visits: options.visits })}
            onWhole={(next) => keep({ whole: next })}
            onBehind={(next) => keep({ behind: next })}
          />
          <div class="body">
            <div class="left">
              {tape}
              {layout.mode === 'middle' && shots}
              {layout.mode === 'wide' && disclosures}
            </div>
            <div class="rest">{rest}</div>
          </div>
        </div>
      )}
    </div>
  );
}

/** The burnt tape of the mark that is asked for; if none is, the last one, with the comparison. */
function burntFor({ tape }: PracticeView, station: string, asked: Readable | undefined): PracticeView['tape'] {
  if (tape?.station !== station) return undefined;
  const isAsked = asked !== undefined && keyOf(asked) === `${tape.of.cell} ${tape.of.path}`;
  return isAsked ? (tape.compared ? undefined : tape) : asked === undefined && tape.compared ? tape : undefined;
}

/** What stands on a tape of which nothing is asked. */
function coverOf({ figure: { station, round }, now, stations }: PanelView): readonly string[] | undefined {
  if (stations.some(({ name, state }) => name === station && state === 'blocked')) return ['Do not fire'];
  return now.checks && round === 0
    ? [`${station} is not shot yet`, 'what you would see looking along the beam']
    : undefined;
}

function noteOf({ figure, shots }: PanelView, isReading: boolean, isTrial: boolean, isNarrow: boolean): string {
  if (isReading) return `${shots.filter(({ state }) => state === 'read').length} of ${shots.length} read`;
  if (isTrial) return 'trying';
  if (isNarrow) return '';
  if (figure.state === 'stale') return 'stale';
  return figure.round === 1 ? 'as found' : '';
}

function areSame(one: NonNullable<PanelOptions['turns']>, other: NonNullable<PanelOptions['turns']>): boolean {
  return (
    one.length === other.length &&
    one.every((turn) =>
      other.some(({ part, screw, turns }) => part === turn.part && screw === turn.screw && turns === turn.turns),
    )
  );
}

/** ms: how long the quiet moment lasts in which a machine comes within. */
const MOMENT = 500;

/** Whether the machine has just come within, while the panel showed it. */
function useSettling({ verdict }: PanelView): boolean {
  const before = useRef(verdict);
  const [isSettling, setSettling] = useState(false);
  useEffect(() => {
    const isNew = verdict === 'within' && before.current === 'continue';
    before.current = verdict;
    if (!isNew) return;
    setSettling(true);
    const timer = setTimeout(() => setSettling(false), MOMENT);
    return () => clearTimeout(timer);
  }, [verdict]);
  return isSettling;
}
