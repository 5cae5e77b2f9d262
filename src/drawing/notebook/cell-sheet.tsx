/** What stands below a cell of a notebook, as a page shows it: the picture on the left, the facts beside it. */
import type { CellView } from '../../model/index.ts';
import { AdjustSheet } from './adjust-sheet.tsx';
import { CareSheet } from './care-sheet.tsx';
import { MachineSheet } from './machine-sheet.tsx';
import { MarksSheet } from './marks-sheet.tsx';

export function CellSheet({ view }: { readonly view: CellView }) {
  switch (view.kind) {
    case 'marks':
      return <MarksSheet view={view} />;
    case 'adjust':
      return <AdjustSheet view={view} />;
    case 'care':
      return <CareSheet view={view} />;
    case 'machine':
      return <MachineSheet view={view} />;
    case 'unread':
      return <p class="sheet figure muted">Nothing is computed until the errors in this cell are fixed.</p>;
  }
}
