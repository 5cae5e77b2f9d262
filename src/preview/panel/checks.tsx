/** The checks before the laser fires: what is ticked is logged, what is not stays open. */
import type { PanelNow } from '../../model/index.ts';

interface ChecksProps {
  readonly checks: NonNullable<PanelNow['checks']>;
  readonly cautions: readonly string[];
  readonly ticked: readonly number[];
  onTick(ticked: readonly number[]): void;
}

export function Checks({ checks: { items }, cautions, ticked, onTick }: ChecksProps) {
  return (
    <section class="bench" aria-labelledby="checks">
      <h2 id="checks">
        Before you fire <span>· tick what is true; the log gets one cell</span>
      </h2>
      {items.map((item, k) => (
        <label class="check" key={item}>
          <input
            type="checkbox"
            checked={ticked.includes(k)}
            onChange={({ currentTarget: { checked } }) =>
              onTick(checked ? [...ticked, k] : ticked.filter((one) => one !== k))
            }
          />
          <span>{item}</span>
        </label>
      ))}
      <p class="pale">{cautions.join(' ')}</p>
    </section>
  );
}
