/** Stations as found and as left: a line for each limit, and their tapes. */
import { offCentre, readingInWords, requirementInWords, slopeInWords, stateInWords } from '../language/index.ts';
import { lengthsIn, type Requirement, type StationReport } from '../model/index.ts';
import { table, type Block, type DrawnTarget } from './blocks.ts';
import type { StationVisit, Visit } from './visit.ts';

const NOT_SHOT = 'not shot';

export function summary({ stations }: Visit): Block[] {
  const rows = stations.flatMap((station) => {
    const limits = [
      ...new Set([...(station.found?.requirements ?? []), ...station.now.requirements].map(({ limit }) => limit)),
    ];
    const lines = limits.length === 0 ? (['centre', 'spread'] as const) : limits;
    return lines.map((limit, k) => [
      k === 0 ? station.name : '',
      limit,
      measured(station.found, limit),
      measured(station.left, limit),
      k === 0 ? stateAtEnd(station) : '',
    ]);
  });
  return table(['station', 'limit', 'as found', 'as left', 'at the end'], rows);
}

/** If something moved after the last marks, as left is not the state at the end. */
function stateAtEnd({ now, left }: StationVisit): string {
  if (left && now.staleSince !== undefined) return 'something moved since it was shot';
  return stateInWords(now);
}

function measured(report: StationReport | undefined, limit: Requirement['limit']): string {
  if (!report) return NOT_SHOT;
  const { missed, ...off } = offCentre(report);
  if (missed > 0 && limit !== 'plumb') return `${missed} ${missed === 1 ? 'tape' : 'tapes'} missed`;
  const requirement = report.requirements.find((one) => one.limit === limit);
  if (requirement) return requirementInWords(requirement, report);
  const amount = limit === 'plumb' ? undefined : off[limit];
  return amount ? `${lengthsIn(report.frame.units).measured(amount)}, no limit` : '';
}

export function stationBlocks({ name, found, left, figures }: StationVisit): Block[] {
  if (!found || !left)
    return [
      { kind: 'subheading', text: name },
      { kind: 'text', text: 'Not shot in this visit.' },
    ];
  const isOne = figures.left?.rounds === 1;
  const targets: readonly DrawnTarget[] = isOne
    ? [{ caption: 'as found and as left', figure: figures.found!, items: marks(left) }]
    : [
        { caption: 'as found', figure: figures.found!, items: marks(found) },
        { caption: 'as left', figure: figures.left!, items: marks(left) },
      ];
  return [
    { kind: 'subheading', text: name },
    { kind: 'targets', targets },
  ];
}

function marks(report: StationReport): string[] {
  const slope = slopeInWords(report);
  // The marks as they were then: what moved later is said of the end.
  const { carriages, frame } = report;
  const readings = report.readings.map((reading) => readingInWords(reading, { carriages, frame }));
  return [
    `${stateInWords(report)}; marks in ${lengthsIn(report.frame.units).unit}${uncertaintyInWords(report)}`,
    ...readings,
    ...(slope ? [`${slope.name} ${slope.words}`] : []),
  ];
}

/** Empty if the readings have different uncertainties. */
function uncertaintyInWords({ readings, frame }: StationReport): string {
  const { doubt } = lengthsIn(frame.units);
  const all = new Set(readings.filter(({ none }) => !none).map(({ u }) => doubt(u)));
  return all.size === 1 ? `, each part ± ${[...all][0]}` : '';
}
