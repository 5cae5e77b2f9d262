/** Near an even chance: the requirement in doubt, and what each of the two ways costs. */
import { Bell } from '../../drawing/index.ts';
import type { PanelNow } from '../../model/index.ts';

interface ChoiceProps {
  readonly ways: NonNullable<PanelNow['ways']>;
  readonly doubt: PanelNow['doubt'];
  /** Pixels. */
  readonly width: number;
}

export function Choice({ ways, doubt, width }: ChoiceProps) {
  return (
    <div class="choice">
      {doubt && (
        <>
          <h2>
            {doubt.name} <span>{doubtInWords(doubt)}</span>
          </h2>
          <Bell figure={doubt} width={width} />
        </>
      )}
      <table>
        <thead>
          <tr>
            <td />
            {['tapes', 'turns', 'what comes of it'].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {ways.map(({ kind, tapes, turns, outcome }) => (
            <tr key={kind}>
              <th scope="row">{kind === 'again' ? 'Shoot again' : 'Turn now'}</th>
              <td>{tapes}</td>
              <td>{turns}</td>
              <td>{outcome}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="pale">Both are sound.</p>
    </div>
  );
}

function doubtInWords({ value, u, unit, decimals }: NonNullable<PanelNow['doubt']>): string {
  return `${value.toFixed(decimals)} ± ${u.toFixed(decimals)} ${unit}; filled: within`;
}
