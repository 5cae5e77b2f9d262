/** Below an adjustment: the plate with what was turned, and beside it the marks predicted and shot after it. */
import type { AdjustView } from '../../model/index.ts';
import { Plate } from '../screws/plate.tsx';

/** Pixels. */
const PLATE = 150;

export function AdjustSheet({ view }: { readonly view: AdjustView }) {
  const { mount, marks, net, remark } = view;
  return (
    <div class="sheet figure row">
      {mount && <Plate figure={mount} width={PLATE} />}
      <div class="facts">
        {marks.some(({ predicted, came }) => predicted ?? came) && <Outcome view={view} />}
        {remark !== undefined && <p>{remark}</p>}
        {net !== undefined && <p class="muted">Net since as found: {net}.</p>}
      </div>
    </div>
  );
}

function Outcome({ view: { station, marks } }: { readonly view: AdjustView }) {
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{station}</th>
          <th scope="col">predicted</th>
          <th scope="col">came</th>
          <th scope="col">off by</th>
        </tr>
      </thead>
      <tbody>
        {marks.map(({ place, predicted, came, offBy, isFar }) => (
          <tr key={place}>
            <th scope="row">{place}</th>
            <td>{predicted ?? '–'}</td>
            <td class={isFar ? 'far' : undefined}>{came ?? 'not shot'}</td>
            <td class={isFar ? 'far' : undefined}>{offBy ?? ''}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
