/** New cells: the advised one, then one of every kind. Snippet placeholders stand where values are missing. */
import { KINDS, type Evaluation, type Kind } from '../../model/index.ts';
import { CELL_KINDS, type Guide } from '../../workbook/index.ts';
import type { Completion } from './completion-type.ts';
import { shortStep, stepsNow } from '../hints/step-hint.ts';

type Skeleton = Pick<Completion, 'label' | 'kind' | 'text' | 'detail' | 'documentation'> & { readonly isSnippet: true };

export function skeletons(evaluation: Evaluation | undefined, guide: Guide): Skeleton[] {
  const advised = evaluation
    ? stepsNow(evaluation).flatMap((step): Skeleton[] =>
        step.cell === undefined
          ? []
          : [
              {
                label: `next: ${shortStep(step, evaluation)}`,
                kind: 'cell',
                text: withBlanks(step.cell),
                isSnippet: true,
                detail: 'advised now',
                documentation: [step.say, step.why].filter(Boolean).join('\n\n'),
              },
            ],
      )
    : [];
  return [...advised, ...KINDS.map((kind) => skeleton(kind, guide))];
}

function skeleton(kind: Kind, guide: Guide): Skeleton {
  const description = guide.at(kind, [kind])?.description;
  return {
    label: kind,
    kind: 'cell',
    text: CELL_KINDS[kind].skeleton,
    isSnippet: true,
    detail: 'a cell',
    ...(description !== undefined && { documentation: description }),
  };
}

/** A step's cell as a snippet with a placeholder for each blank. */
function withBlanks(cell: string): string {
  let blank = 0;
  return cell.replace(/[\\$}]/g, '\\$&').replace(/: (?=\n|\\\}|$)|: $/gm, () => `: \${${++blank}:}`);
}
