/** What to do now, in one sentence, with one button that logs it. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { Face, VerdictIn } from '../../drawing/index.ts';
import type { PanelNow } from '../../model/index.ts';

interface StripProps {
  readonly now: PanelNow;
  /** The machine has just come within. */
  readonly isSettling: boolean;
  /** Changes with everything that changes the room of the text. */
  readonly width: number;
  /** The checks that are ticked. */
  readonly ticked: number;
  onLog(way?: 0 | 1): void;
  /** The sentences of `then` for which there is no room. */
  onFit(left: readonly string[]): void;
}

const LABELS: Readonly<Record<NonNullable<PanelNow['log']>, string>> = {
  checks: 'Log Checks',
  turn: 'Log Turn',
  step: 'Log Step',
  replacement: 'Log Replacement…',
  release: 'Sign Off…',
};

export function Strip({ now, isSettling, width, ticked, onLog, onFit }: StripProps) {
  const text = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => onFit(fit(text.current!)), [now, width]);
  return (
    <section class="strip" aria-label="What to do now">
      <ActSign sign={now.sign} isSettling={isSettling} />
      <div class="text" ref={text}>
        <p class="sentence" role="status">
          {now.sentence}
        </p>
        <p class="why">
          {now.then.map((sentence) => (
            <span key={sentence}>{`${sentence} `}</span>
          ))}
        </p>
      </div>
      {now.log && (
        <button type="button" class="main" disabled={now.log === 'checks' && ticked === 0} onClick={() => onLog()}>
          {LABELS[now.log]}
        </button>
      )}
      {now.ways && (
        <div class="ways">
          {now.ways.map(({ kind }, way) => (
            <button key={kind} type="button" onClick={() => onLog(way as 0 | 1)}>
              {kind === 'again' ? 'Shoot Again' : 'Log Turn'}
            </button>
          ))}
        </div>
      )}
    </section>
  );
}

/**
 * Nothing is cut: sentences that do not fit are left out, the first ones last; where even the act does not fit, its
 * letters are smaller. The sentences that are left out.
 */
function fit(box: HTMLElement): string[] {
  const [sentence, why] = [...box.children] as [HTMLElement, HTMLElement];
  const spans = [...why.children] as HTMLElement[];
  const lineHeight = () => Number.parseFloat(getComputedStyle(why).lineHeight);
  const fits = () => box.scrollHeight <= box.clientHeight && why.offsetHeight <= 2 * lineHeight() + 1;
  for (const size of ['', 'long', 'longer']) {
    sentence.className = `sentence ${size}`;
    for (const span of spans) span.hidden = true;
    if (!fits()) continue;
    for (const span of spans) {
      span.hidden = false;
      span.hidden = !fits();
    }
    break;
  }
  return spans.filter(({ hidden }) => hidden).map(({ textContent }) => textContent.trim());
}

function ActSign({ sign, isSettling }: { readonly sign: PanelNow['sign']; readonly isSettling: boolean }) {
  return (
    <svg class="figure act" viewBox="-22 -22 44 44" aria-hidden="true">
      {sign.act === 'turn' ? (
        <Face letter={sign.screw.slice(0, 2)} turns={sign.turns} hand={sign.hand} radius={20} isMeasured />
      ) : sign.act === 'state' ? (
        <g transform="translate(-20 -20) scale(2.5)">
          <VerdictIn state={sign.state} animate={isSettling} />
        </g>
      ) : (
        SIGNS[sign.act]
      )}
    </svg>
  );
}

const SIGNS = {
  check: (
    <g
      style={{ stroke: 'var(--border)', fill: 'none' }}
      stroke-width="2"
      stroke-linejoin="round"
      stroke-linecap="round"
    >
      <path d="M0 -18L20 17H-20z" />
      <path d="M0 -5v11M0 11.5v.5" stroke-width="3" />
    </g>
  ),
  read: (
    <g class="ink" stroke-width="1.5">
      <circle r="18" />
      <path d="M-18 -6H3M11 -6H18M7 -18V-10M7 -2V17M3 -10h8v8h-8z" style={{ stroke: 'var(--out)' }} />
    </g>
  ),
  shoot: (
    <g class="ink" stroke-width="1.5">
      <path d="M-17 -17h34v34h-34z" />
      <path d="M-17 0h34M0 -17v34" stroke-width="0.75" />
      <circle r="9" stroke-dasharray="1.4 3" />
    </g>
  ),
} as const;
