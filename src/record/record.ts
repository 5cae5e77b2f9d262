/**
 * The record of a visit, like the certificate of an instrument: identity, as found, what was done, as left,
 * uncertainties, and who is responsible. Its content comes from the workbook or is computed from it; unfavourable
 * results are included.
 */
import { unlimitedInWords, type Book } from '../language/index.ts';
import { cautionsAt, lengthsIn, message, severity, type ReleaseEntry } from '../model/index.ts';
import { careHistory, recentHistory } from '../history/index.ts';
import { section, type Block } from './blocks.ts';
import { amendmentTable, hoursInWords, photoTable } from './beside.ts';
import { careBlocks, checkLists } from './care.ts';
import { doneTable } from './done.ts';
import { driftBlocks } from './drift.ts';
import { lightBlocks } from './light.ts';
import { measuredTable } from './measured.ts';
import { mountStates } from './mount-states.ts';
import { openPoints, rulesOff } from './points.ts';
import { remarks, workTable } from './remarks.ts';
import { stationBlocks, summary } from './stations.ts';
import { bookOfVisit, visitIn, type Visit } from './visit.ts';

/** The identity of the record's source, in addition to the workbook. */
export interface Identity {
  readonly file: string;
  /** SHA-256 of the file's bytes, in hexadecimal digits. */
  readonly hash: string;
  /** Version control: the commit, and whether the file has uncommitted changes; absent without version control. */
  readonly revision?: { readonly commit: string; readonly isChanged: boolean };
  readonly version: string;
}

/**
 * The record of the last visit, from the cells up to its end; of the whole book if it has no visit. The book must be up
 * to date.
 */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the sections of the document in their order
export function recordOf(whole: Book, identity: Identity): Block[] {
  const book = bookOfVisit(whole)!;
  const visit = visitIn(book);
  const { machine, session, release, limits } = visit;
  const signer = release && signerOf(release);
  if (!machine)
    return [
      { kind: 'title', text: 'Record of alignment' },
      { kind: 'notice', text: `${identity.file} describes no machine, so there is no record.` },
    ];
  const { given, short } = lengthsIn(machine.units);
  const { entries } = book.workbook;
  const sessions = recentHistory(entries, book.log);
  return [
    { kind: 'title', text: machine.practice ? 'PRACTICE: not a record' : 'Record of alignment' },
    {
      kind: 'facts',
      rows: rowsOf([
        ['machine', machine.title === undefined ? machine.name : `${machine.name}: ${machine.title}`],
        ['number', machine.asset?.number],
        ['serial', machine.asset?.serial],
        ['owner', machine.asset?.owner],
        ['site', machine.asset?.site],
        ['visit', session && [session.title, session.reason && `(${session.reason})`].filter(Boolean).join(' ')],
        ['date', session?.date],
        ['by', session?.by],
        ['hours', hoursInWords(visit)],
        ['limits', limits && `${limits.title}; ${Math.round(limits.confidence * 100)} % confidence`],
        [
          'marks',
          limits && `read to ${given(limits.reading.resolution)}, tape placed to ± ${given(limits.reading.placing)}`,
        ],
        ['file', identity.file],
        ['SHA-256', identity.hash],
        [
          'revision',
          identity.revision &&
            `${identity.revision.commit}${identity.revision.isChanged ? ', with uncommitted changes' : ''}`,
        ],
        ['written by', `Alignbook ${identity.version}`],
      ]),
    },
    ...(machine.practice
      ? [{ kind: 'watermark', text: 'PRACTICE' } as const, { kind: 'notice', text: PRACTICE } as const]
      : []),
    { kind: 'notice', text: outcome(visit) },
    ...section('As found, as left', ...summary(visit), ...mountStates(visit)),
    ...visit.stations.flatMap((station) => stationBlocks(station)),
    ...section('Since earlier visits', ...driftBlocks(book, sessions)),
    ...section('What was done', ...doneTable(book, visit)),
    ...section('Care and power', ...careBlocks(careHistory(entries), sessions.sessions.at(-1)?.number ?? 1)),
    ...section('Measured', ...measuredTable(book, visit)),
    ...section('Light', ...lightBlocks(book, visit)),
    ...section('Checks', ...checkLists(visit)),
    ...section('Open points', ...openPoints(book)),
    ...section('Rules turned off', ...rulesOff(book)),
    ...section('Computed values', ...workTable(book, visit)),
    ...section('Photos', ...photoTable(book, visit)),
    ...section('Corrections', ...amendmentTable(book)),
    ...section('Remarks', ...remarks(visit)),
    ...section('How this was judged', ...judged(short(0.8)).map((text): Block => ({ kind: 'text', text }))),
    ...section('Cautions', { kind: 'list', items: Object.values(cautionsAt(machine.source.wavelength)).flat() }),
    ...section('Signed', {
      kind: 'signatures',
      whose: [named('done by', signer), named('checked by', release?.witness)],
    }),
  ];
}

/** The verdict and the release, in a sentence or two. */
function outcome({ evaluation, release }: Visit): string {
  const state =
    evaluation.verdict === 'within'
      ? 'Every station with limits was within limits when it was last shot.'
      : 'Not every station with limits is within limits, or shot since something moved.';
  const unfit = evaluation.findings
    .filter((finding) => finding.code === 'care.unfit' && severity(finding) === 'error')
    .map(message);
  const statement = [...(unfit.length > 0 ? unfit : [state]), unlimitedInWords(evaluation.stations)]
    .filter(Boolean)
    .join(' ');
  if (!release) return `${statement} The machine has not been released.`;
  const signer = signerOf(release);
  const when = [release.date, signer === undefined ? 'without a name' : `by ${signer}`].filter(Boolean).join(' ');
  const witness = release.witness === undefined ? '' : `, witnessed by ${release.witness}`;
  return `${statement} ${release.to === 'in service' ? 'Released to service' : 'Withdrawn from service'}, ${when}${witness}.`;
}

function named(who: string, name: string | undefined): string {
  return name === undefined ? who : `${who} (${name})`;
}

const PRACTICE = 'PRACTICE: this machine is simulated. Nothing here describes a real machine.';

function signerOf({ by = '' }: ReleaseEntry): string | undefined {
  return by.trim() === '' ? undefined : by;
}

function rowsOf(rows: readonly (readonly [string, string | undefined])[]): (readonly [string, string])[] {
  return rows.flatMap(([name, value]) => (value === undefined || value === '' ? [] : [[name, value] as const]));
}

/** @param some the spread that reading errors alone produce: from memory */
const judged = (some: string) => [
  'Marks are read on tape, looking along the beam at the burnt side. ± is a standard uncertainty (JCGM 100) from the reading step and the placing of the tape.',
  `A station is within when the joint probability of meeting all its limits, reading errors included, reaches the confidence above (JCGM 106). It is borderline where the marks are inside the limits but that probability is not reached. Reading errors bias a measured spread upward: four readings of one point show a spread of about ${some}.`,
  'As found is the first round of marks of the visit, as left the last. What was not shot is shown as not shot.',
];
