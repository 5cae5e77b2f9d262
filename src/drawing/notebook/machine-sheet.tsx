/** Below a machine: its beam path from above, and beside it how far the beam stays from the edges of the apertures. */
import { lengthsIn, type MachineView, type PathFigure, type PathPart } from '../../model/index.ts';
import { px } from '../number.ts';
import { ViewOf } from '../path/view.tsx';
import { pathScale } from '../path/views.ts';
import { pathInWords } from '../path/words.ts';

/** Pixels. */
const WIDTH = 360;

export function MachineSheet({ view: { figure } }: { readonly view: MachineView }) {
  const { factor } = pathScale(figure, WIDTH);
  return (
    <div class="sheet figure row">
      <Plan figure={figure} />
      <div class="facts">
        <Clearances figure={figure} />
        {figure.place !== '' && <p class="muted">Drawn with {figure.place}.</p>}
        <p class="muted">Offsets of the beam are drawn × {factor}; dotted where no tape was shot yet.</p>
      </div>
    </div>
  );
}

function Plan({ figure }: { readonly figure: PathFigure }) {
  const { per, views } = pathScale(figure, WIDTH);
  const view = views[0]!;
  const title = `Beam path of ${figure.machine}, ${view.name}`;
  return (
    <svg
      class="figure"
      width={WIDTH}
      height={px(view.height)}
      viewBox={`0 0 ${WIDTH} ${px(view.height)}`}
      role="img"
      aria-label={title}
    >
      <title>{title}</title>
      <desc>{pathInWords(figure)}</desc>
      <ViewOf figure={figure} view={view} per={per} width={WIDTH} />
    </svg>
  );
}

function Clearances({ figure: { parts, units, isWidthKnown } }: { readonly figure: PathFigure }) {
  const rows = parts.flatMap((part) => {
    const least = leastOf(part);
    return least === undefined ? [] : [{ name: part.name, least }];
  });
  if (rows.length === 0) return null;
  const { read } = lengthsIn(units);
  return (
    <table>
      <thead>
        <tr>
          <td />
          <th scope="col">{isWidthKnown ? 'edge of the beam to the aperture' : 'beam to the aperture'}, at least</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ name, least }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td class={least < 0 ? 'far' : undefined}>{least < 0 ? `cut by ${read(-least)}` : read(least)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Over the travel, mm; undefined where the beam does not arrive. */
function leastOf({ clearance: { points } }: PathPart): number | undefined {
  const known = points.flatMap(({ now }) => now ?? []);
  return known.length > 0 ? Math.min(...known) : undefined;
}
