/** The keys on the tape. */
import { lengthsIn, type PanelView } from '../../model/index.ts';

export function Keys({ view: { resolution, figure } }: { readonly view: PanelView }) {
  const { given } = lengthsIn(figure.frame.units);
  const rows: readonly (readonly [keys: readonly string[], what: string])[] = [
    [['←', '→', '↑', '↓'], `move by the reading step, ${given(resolution)}`],
    [['Alt', '←'], `by ${given(resolution / 10)}`],
    [['Enter'], 'log the mark; the next one is asked for'],
    [['C', 'N'], 'centre · none, the beam missed'],
    [['+', '−', '0'], 'zoom, fit'],
    [['[', ']'], 'previous, next mark'],
    [['Esc'], 'leave the mark as it was'],
  ];
  return (
    <div class="keys">
      <h2>Keys on the tape</h2>
      <dl>
        {rows.map(([keys, what]) => (
          <div key={what}>
            <dt>
              {keys.map((key) => (
                <kbd key={key}>{key}</kbd>
              ))}
            </dt>
            <dd>{what}</dd>
          </div>
        ))}
      </dl>
    </div>
  );
}
