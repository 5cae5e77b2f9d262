/** Reading marks one after the other: which one is asked for, where it is aimed, and what was sent. */
import { useEffect, useState } from 'preact/hooks';
import type { FromPanel, PanelShot, PanelView } from '../../model/index.ts';
import { askedFor, isReadable, keyOf, type Aim, type Readable } from './reading.ts';

export interface Reading {
  readonly asked: Readable | undefined;
  readonly aim: Aim | undefined;
  aimAt(aim: Aim | undefined): void;
  /** Of a mark that was read already only the second choice asks for it anew. */
  choose(shot: PanelShot): void;
  place(point: Aim | 'none'): void;
  cancel(): void;
}

/** @param onLogged after each mark */
export function useReading(view: PanelView, send: (message: FromPanel) => void, onLogged: () => void): Reading {
  const [aim, setAim] = useState<Aim>();
  const [chosen, setChosen] = useState<{ readonly key: string; readonly isAnew: boolean }>();
  const [sent, setSent] = useState<readonly string[]>([]);
  useEffect(() => setSent([]), [view]);
  const { station } = view.figure;
  useEffect(() => {
    setChosen(undefined);
    setAim(undefined);
  }, [station]);
  const asked = askedFor(view.shots, chosen?.isAnew ? chosen.key : undefined, sent);
  return {
    asked,
    aim: asked && aim,
    aimAt: setAim,
    choose: (shot) => {
      if (!isReadable(shot)) return;
      const key = keyOf(shot);
      setChosen({ key, isAnew: shot.state === 'open' || chosen?.key === key });
    },
    place: (point) => {
      // Until the log has the cell that the first mark makes, a second one would make another.
      if (!asked || (asked.slot.cell < 0 && sent.length > 0)) return;
      const { cell, path } = asked.slot;
      const isNone = point === 'none';
      send({
        type: 'place',
        cell,
        path,
        ...(isNone ? { right: 0, up: 0, none: true } : point.at),
        ...(!isNone && point.isFine && { fine: true }),
      });
      setSent([...sent, keyOf(asked)]);
      setChosen(undefined);
      setAim(undefined);
      onLogged();
    },
    cancel: () => {
      setChosen(undefined);
      setAim(undefined);
    },
  };
}
