/** Reports optics with a far higher loss than clean ones, at the reading that shows it. */
import { findingAt, pathTo, type FactsOf, type Finding, type LogEntry } from '../../model/index.ts';
import { listed } from '../../words/index.ts';
import { powerLosses, type PowerLoss } from '../../history/index.ts';

export function powerLoss(entries: readonly LogEntry[]): Finding[] {
  return powerLosses(entries).map((loss) =>
    findingAt(entries[loss.order]!, pathTo('reading'), 'power.loss', factsOf(loss)),
  );
}

function factsOf({ through, transmission: { value, u }, clean }: PowerLoss): FactsOf<'power.loss'> {
  const isOne = through.length === 1;
  return {
    through: `${listed(through)}${isOne ? ' passes' : ' together pass'}`,
    share: `${(100 * value).toFixed(1)} ± ${(100 * u).toFixed(1)} %`,
    clean: `${(100 * clean).toFixed(1)} %`,
    look: isOne ? `Inspect ${through[0]}` : `Measure between them to find which one, and inspect it`,
  };
}
