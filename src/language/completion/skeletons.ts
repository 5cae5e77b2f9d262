/** Cells to begin with: what the log asks for now, then one of every kind. A cursor stands where something is to be filled in. */
import type { Evaluation, Kind } from '../../model/index.ts';
import { KINDS, type Guide } from '../../workbook/index.ts';
import type { Completion } from './completion-type.ts';
import { stepInBrief, stepsNow } from '../hints/step-hint.ts';

type Skeleton = Pick<Completion, 'label' | 'kind' | 'text' | 'detail' | 'documentation'> & { readonly isSnippet: true };

export function skeletons(evaluation: Evaluation | undefined, guide: Guide): Skeleton[] {
  const advised = evaluation
    ? stepsNow(evaluation).flatMap((step): Skeleton[] =>
        step.cell === undefined
          ? []
          : [
              {
                label: `next: ${stepInBrief(step, evaluation)}`,
                kind: 'cell',
                text: withBlanks(step.cell),
                isSnippet: true,
                detail: 'what is advised now',
                documentation: [step.say, step.why].filter(Boolean).join('\n\n'),
              },
            ],
      )
    : [];
  return [...advised, ...KINDS.map((kind) => skeleton(kind, guide))];
}

/** The order in which the keys are met when the cell is filled in. */
const BODIES: Readonly<Record<Kind, string>> = {
  machine:
    'machine: ${1:name}\nsource: {fires: ${2|left,right,front,rear,up,down|}}\npath:\n  M1: {leg: ${3:90 mm}, aperture: ${4:20 mm}, sends: ${5|front,rear,left,right,up,down|}}\n$0',
  limits: 'limits: ${1:workshop standard}\nstations:\n  ${2:M1}: {centre: ${3:3 mm}}\n$0',
  session: 'session: ${1:routine service}\ndate: ${2:2026-01-31}\n$0',
  marks: 'marks: ${1:M1}\nshots: $0\n',
  adjust: 'adjust: ${1:M1}\nturn: {${2:A}: ${3|in,out|} ${4:1/4}}\n$0',
  care: 'care: ${1:M1}\nfound: ${2|clean,dusty,hazy,spotted,scratched,burnt,pitted,cracked,loose|}\ndid: ${3|inspected,cleaned in place,removed and cleaned,tightened,replaced|}\n$0',
  power: 'power: ${1:lens}\nreading: ${2:70 W}\n$0',
  event: 'event: ${1:moved}\n$0',
  checks: 'checks: ${1:make safe}\ndone:\n  - ${2:eyewear on}\n$0',
  note: 'note: |\n  $0\n',
  work: 'work: ${1:title}\n${2:name}: ${3:1 mm + 2 mm}\n$0',
  release: 'release: ${1|in service,withdrawn|}\nby: $0\n',
};

function skeleton(kind: Kind, guide: Guide): Skeleton {
  const description = guide.at(kind, [kind])?.description;
  return {
    label: kind,
    kind: 'cell',
    text: BODIES[kind],
    isSnippet: true,
    detail: 'a cell',
    ...(description !== undefined && { documentation: description }),
  };
}

/** A step's cell as a snippet: what it leaves blank is filled in one after the other. */
function withBlanks(cell: string): string {
  let blank = 0;
  return cell.replace(/[\\$}]/g, '\\$&').replace(/: (?=\n|\\\}|$)|: $/gm, () => `: \${${++blank}:}`);
}
