/** Findings of the log: reported by a rule (`src/rules`), with a case in `test/language/cases`. Severities: `findings.ts`. */
import { error, hint, information, warning, type Wording } from './wording.ts';

export const logFindings = {
  // The shape of a cell
  'mount.contradicted': error(
    'The description of mount `{mount}` is wrong: {what}. Write {fix}.',
    'Two responses agree with this and contradict the machine cell. The advice already uses the correction. Check by hand: turn one screw in by 1/4 and see which way its corner moves.',
  ),
  'limits.fine': information(
    'One shot cannot verify this limit ({limit}): {confidence} % confidence takes {shots} shots of every place.',
    'Widen the limit, or read more finely: use a smaller `resolution` and place the tape more carefully.',
  ),

  // Names and values
  'mark.outside': warning(
    'This mark is {distance} from the centre, outside the aperture (radius {radius}).{asked}',
    'Check: inches instead of millimetres? Left and right, or near and far, swapped?',
  ),
  'shift.far': warning(
    'This shift moves the beam to {off} from the centre of {station}, outside its aperture (radius {radius}).{asked}',
    'Check: inches instead of millimetres? Decimal point off by one place? If the part was moved this far, shoot before you move anything else.',
  ),
  'date.order': warning('{date} is earlier than {before} above it.', 'Write the cells in order of time.'),
  'hours.less': warning(
    'The counter shows {hours} here, but {before} above.',
    'Hours only increase. If the counter was replaced, write its first value: `hours: new 0 h`.',
  ),

  // What the log means
  'log.unread': warning(
    'This cell has errors, so {reach} are treated as not measured.',
    'Fix the cell. Then it is used.',
  ),
  'log.noLimits': information(
    'Station {station} has no limits, so it cannot be judged.',
    'Add it to a `limits` cell.',
    'passing',
  ),
  'log.beam': warning(
    'With these values the beam is at least {width} wide at {name}; its aperture is {aperture} wide.',
    '`diameter` is the 1/e² diameter at the tube’s exit. `divergence` is the full angle, usually a few mrad. The results of `light`, eyewear included, depend on both.',
  ),
  'log.bowed': warning(
    'Halfway along the travel the mark on {station} is off the line through the end marks: {way} ± {u}. No screw can correct this.',
    'The rail is bent or sags, or the carriage pitches or yaws on it. Check the rail with a straightedge. Check its supports, and the play of the carriage on it.',
    'passing',
  ),
  'log.racking': warning(
    '{carriage} turns along its travel: at {station} the two ends differ by {amount} ± {u} more than the angles explain. No screw can correct this.',
    'The gantry racks: one side lags behind the other, or its rails are not parallel. Check belts, pulleys and the square of the gantry.',
    'passing',
  ),
  'beam.impossible': warning(
    'These values are physically impossible together: a beam {diameter} wide with M² {ratio} has a divergence of at least {least} mrad (4 M² λ/(π D)); {divergence} mrad is written.',
    '`divergence` is the full angle, `diameter` the 1/e² diameter at the tube’s exit. Copy both from the data sheet of the tube, or leave out `M2` or `divergence`. Until then `light` computes no diameter and no spot.',
  ),
  'log.height': warning(
    'At {station} the marks coincide but are {distance} from the centre: {way}. Mirror screws cannot correct this.',
    'The heights of tube and mirror differ, or the aperture is out of place. Move the tube or the block, or shim it.',
    'passing',
  ),
  'log.unexpected': warning(
    'The mark on {station}{place} is {mark}. Predicted from the log: {expected} ± {within} (95 %). {effect}{asked}',
    'Possible causes: a turn logged the wrong way or not at all, a screw that slipped, a mark read on the wrong side, or a part that was knocked. Shoot the place again on fresh, labelled tape. Fix the wrong entry, or log what happened above these marks: `event: collision`.',
    'passing',
  ),
  'log.misread': information(
    'The mark on {station}{place} was not confirmed by the repeat and is not used.',
    'It was misread, or an old mark was mistaken for the new one. Label every tape.',
  ),
  'log.scatter': warning(
    'Repeated marks on {station}{place} are {distance} apart although nothing was moved between them.',
    'A mirror, optic or rail is loose, or a mark was misread. Shoot the place again. Nothing is within until the marks agree.',
  ),
  'log.loose': error(
    '{part} is loose: repeated marks on {station}{place} are {distance} apart although nothing was moved between them.',
    'Repeated marks differ only after this part. Do not shoot or turn anything. Take hold of the part, tighten what moves, and log it: `care:` with `did: tightened`.',
  ),
  'log.reading': warning(
    'The marks of this session scatter {factor} times as much as the declared `reading` allows: ± {used} is used instead of ± {declared}.',
    'Read more finely, use a smaller pulse and place the tape more carefully. Or write the real `reading:` in the limits cell.',
  ),
  'log.unmoved': warning(
    'The turn of {screws} had no effect: the marks on {station} did not move.',
    'Possible causes: a lock nut still tight, the wrong mirror, or a screw that turns freely. Mark the knob with a pen, turn 1/4, and check that the plate moves.',
  ),

  // What a mark's form says, and power
  'mark.double': warning(
    'The mark on {station}{place} is double: a loose or cracked optic, or a tube that is not in its lowest mode.',
    'With the beam off, inspect every mirror before it with torch and mirror. Log what you find in a care cell. If the first tape also shows a double mark, the cause is the tube. Then shoot the place again on fresh tape: the station is not within until that place has a new mark.',
  ),
  'mark.crescent': warning(
    'The mark on {station}{place} is a crescent: something upstream clips the beam on the missing side.',
    'Find what the beam touches on that side: an aperture, a mount, a cover or a cable; on tape behind an aperture, the rim of that aperture. Then shoot the place again on fresh tape: the station is not within until that place has a new mark.',
  ),
  'mark.growth': warning(
    'The mark on {far} is {size} wide. Predicted from {from} on {near} and the divergence: {expected}.',
    'Sizes are compared at one pulse, and only a growth of two standard uncertainties is reported (burns ± 10 %, divergence of a data sheet ± 20 %: common practice, no source). Possible causes: the divergence is larger than in `source`, the tube is not in its lowest mode, or a mirror between the two is warm, bent in its mount or dirty. Check the mirrors between the two, and `beam` in the machine cell.',
  ),
  'power.loss': warning(
    '{through} {share} of the power; clean optics pass about {clean}. The loss is 10 % or more, at 95 % confidence. {look}.',
    'A clean optic loses one or two per cent (common practice, no source). Inspect with torch and mirror for dirt, a burnt or cracked coating, or a beam clipped by an aperture. Clean only what is dirty. Log it in a care cell, and measure again.',
  ),

  // What else is measured
  'measure.outside': warning(
    '{what} is {value}, outside its limits: {limit}.',
    'Correct it, measure again, and log the value. If the limit is wrong, write another in a later cell of this name.',
  ),

  // Parts that are not fired at
  'care.unfit': error(
    '{part} was found {found}. {since}.',
    'Replace it, or tighten what is loose, and log it: `did: replaced` or `did: tightened`. If it is sound after all, log `found: clean`, `did: inspected` and a `note` with the reason. Once cleared, this finding is information. A cracked optic breaks under the beam. Zinc selenide is toxic.',
  ),
  'care.refit': warning(
    '{part} is logged the wrong way round: {how}.',
    'Turn the lens before you close its tube. Then log how it lies: `refit: {flat side: down, …}`. The wrong way round, a zinc selenide lens has about three times the blur. A meniscus has no flat side to log. A lens with equal faces can go either way.',
  ),
  'release.unfit': error(
    'Released to service with {what}.',
    'Replace what is unfit, or tighten what is loose, and log it above the release. Or withdraw the machine. A release signed with an unfit part remains an error.',
  ),
  'release.measured': warning(
    'Released to service with {what} outside its limits.',
    'Correct it, measure again, and log the value above the release.',
  ),
  'release.practice': error(
    'A practice machine cannot be released: it is simulated.',
    'Delete this cell. A practice log is not a record of a machine.',
  ),

  // Visits
  'session.missing': hint(
    'The machine was released above, and no `session` cell follows. An unnamed visit begins here. Marks from before the release are not used in it.',
    'Write a `session` cell above this one, with `date` and `by`: `session: spring service`.',
  ),

  // The order of work
  'fire.unchecked': warning(
    'The first shot of this visit has no safety checks above it. The beam burns eyes and skin at once.',
    'Before you fire, check eyewear, covers, extraction and cooling, and have somebody watch. Log what was done in a `checks` cell above the shot.',
  ),
  'fire.open': warning(
    'Fired with open checks: {items}.',
    'Do the open checks first. Log them under `done` in a `checks` cell above the shot.',
  ),
  'fire.pulse': warning(
    'The pulse {what} of {used} is above the maximum for a test shot, {most} in the machine cell. A strong pulse burns through the tape and fouls the optics.',
    'Use less. If the log is wrong, write what was used.',
  ),
  'fire.tape': information(
    'Reused tape: an old mark can be mistaken for the new one.',
    'Use fresh tape for each shot, or label the marks. If in doubt, shoot again.',
  ),
  'order.upstream': warning(
    'The beam is out of limits at {station}, but {part}, which aims it onward, was turned already. After {station} is corrected, {part} must be aimed again.',
    'First bring that station within limits with the parts before it in the path. Then aim the beam onward.',
  ),
  'order.locked': warning(
    '{part} was turned while its lock nuts are logged as tight. Tight nuts hold the mirror: the turn had little effect, or the nuts were loosened and moved it.',
    'If they were loosened, log it before the turn: `lock: loose`. Tighten them at the end, and shoot again.',
  ),
  'order.noLocks': warning(
    'This cell logs lock nuts of {part}, but its mount `{mount}` has none: `locks: none`.',
    'If there are nuts, write `locks: nut` in the mount. The advice then includes loosening and tightening them. If there are none, delete `lock` from this cell.',
  ),
  'release.open': warning(
    'Released to service with open checks: {items}.',
    'Do them, and log them under `done` in a `checks` cell before the release. Write what the machine can work without in a note.',
  ),
  'release.loose': warning(
    'Released to service with the lock nuts of {parts} loose or not yet tightened. A loose mirror moves as the machine shakes.',
    'Tighten the lock nuts, log it, and shoot again.',
  ),
  'release.locked': warning(
    'Released to service with {stations} not shot since a lock nut was tightened. Tightening moves mirrors.',
    'Shoot again with everything tight, and log the marks before the release.',
  ),
  'release.removed': warning(
    'Released to service with {stations} not shot since an optic was taken out, replaced or tightened. An optic never returns to exactly the same place.',
    'Shoot again, and log the marks before the release.',
  ),
  'release.stale': warning(
    'Released to service with {stations} not shot since the beam may have moved. The older marks are stale.',
    'Shoot again, and log the marks before the release. If you leave out a station on purpose, give it no limits.',
  ),
  'release.corners': warning(
    'Released to service with {stations} not shot at every required place. A beam that is good in one corner can miss in another.',
    'Shoot near and far. Where two carriages move the tape, shoot two opposite corners of the bed. Where plumb has a limit, shoot two heights, unless plumb was shot before and only small turns were made since.',
  ),
  'release.outside': warning(
    'Released to service with {stations} not within limits.',
    'See the next step, or widen the limits if the work allows it.',
    'passing',
  ),
  'release.refit': warning(
    '{part} was out, and the log does not show that it was refitted correctly: {what}. A lens the wrong way round or tilted spoils the focus.',
    'Check it, then log it in a care cell: `refit: {flat side: down, ring: snug, witness: lined up, hose: refitted}`.',
  ),
  'by.missing': information(
    'No name. Add `by:` with the person responsible.',
    'Write your name or initials: `by: kt`.',
  ),
  'care.overdue': information(
    'Care of {part} was due on {due}; the last logged care is of {last}. Dirt burns into an optic.',
    'Inspect it, clean it only if it is dirty, and log that in a care cell. The log has no hours of firing: count the hours of `every 40 h` yourself.',
    'passing',
  ),
} as const satisfies Record<string, Wording>;
