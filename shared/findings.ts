/**
 * Every finding: its stable code, how grave it is, its wording with `{facts}`, and help for the person who
 * meets it. One table, so that the command line, the editor and the docs say the same.
 *
 * Severity: `error` the cell, or the value, cannot be used; `warning` it is used, but a sign, a unit or a
 * reading is probably not what was meant; `information` worth knowing; `hint` style.
 */
import { error, hint, information, warning, type Wording } from './wording.ts';

export const findings = {
  // The file and its cells
  'file.unreadable': error(
    'This file cannot be read: {reason}.',
    'Check the path and the read permission. The other files were checked.',
  ),
  'cells.conflict': error(
    'Unresolved version-control conflict. Both sides are read as cells.',
    'Keep one side, or both in order of time. Delete the marker lines.',
  ),
  'cells.empty': hint('This cell is empty.', 'Delete the extra `---` line, or write the cell.'),
  'cells.loneReturn': error(
    'A lone carriage return does not end a line.',
    'Save the file with LF or CRLF line endings.',
  ),
  'cells.directive': error('`{directive}` is not supported. Only `%YAML 1.2` is allowed here.', 'Delete the line.'),
  'cells.afterEnd': error(
    'Text after `...` needs a `---` line before it.',
    'Put `---` on a line of its own before this text, or delete the `...`.',
  ),
  'cells.limit': error(
    'Too large to read safely: {what}.',
    'A workbook is a log written by hand, in cells of a few lines. Split the file, or delete what does not belong in it.',
  ),

  // YAML
  'yaml.syntax': error(
    'Invalid YAML: {reason}',
    'Usual causes: a missing quote, a tab, or a `:` inside a text. Quote the text.',
  ),
  'yaml.tag': error('The tag `{tag}` is not supported.', 'Delete the tag. Every value is read as text.'),
  'yaml.merge': error('Merge keys `<<` are not supported.', 'Write out the keys.'),
  'yaml.alias': error(
    '`*{name}`: this cell has no such anchor.',
    'An anchor works only in its own cell. Write out the value.',
  ),
  'yaml.duplicate': error(
    '`{key}` is written twice in this {what}.',
    'Keep one. A later cell can replace an earlier one; a key cannot.',
  ),

  // The shape of a cell
  'cell.mapping': error(
    'A cell must be a mapping of keys to values; this is {found}.',
    'Begin with the kind of cell, for example `marks: M2`.',
  ),
  'cell.kind': error(
    'This cell has no kind. It needs exactly one of: {kinds}.',
    'Begin the cell with its kind, for example `marks: M2`.',
  ),
  'cell.kinds': error('This cell has two kinds, `{first}` and `{second}`.', 'Put a `---` line between them.'),
  'cell.kindFirst': hint('Write the kind `{kind}` first.', 'The formatter moves it to the top.'),
  'cell.key': error('`{key}` is not a key of {place}.', 'Keys that begin with `x-` are yours and are not checked.'),
  'cell.missing': error('`{key}` is missing from {place}.', 'Add it. There is no default.'),
  'cell.shape': error(
    '{place}: expected {wanted}, found {found}.',
    'See the example in the description of the format.',
  ),
  'cell.word': error('`{word}` is not one of {words}.', 'Use one of the words listed.'),
  'cell.together': error('{place}: {reason}.', 'Delete or change one of the two.'),
  'cell.flowMark': error(
    '`{key}` was read as a key: inside `{ }` a comma ends a value.',
    'Write the mark without a comma: `near: 1.5 right 2.0 down`.',
  ),

  'mount.contradicted': error(
    'The description of mount `{mount}` is wrong: {what}. Write {fix}.',
    'Two responses agree with this and contradict the machine cell. The advice already uses the correction. Check by hand: turn one screw in by 1/4 and see which way its corner moves.',
  ),
  'limits.fine': information(
    'One shot cannot verify this limit ({limit}): {confidence} % confidence takes {shots} shots of every place.',
    'Widen the limit, or read more finely: use a smaller `resolution` and place the tape more carefully.',
  ),

  // Names and values
  'name.unreadable': error(
    '`{name}` is not a valid name. Use a letter first, then letters, digits and `_`.',
    'For example `M1`, `rear`, `corner_mount`.',
  ),
  'name.quote': hint('Some YAML readers do not read `{name}` as text.', 'Quote it: `"{name}"`.'),
  'name.reserved': error('`{name}` is reserved here.', 'Choose another name.'),
  'name.unknown': error(
    'Machine `{machine}` has no {what} `{name}`.',
    'Use a name from the machine cell. Names are case-sensitive.',
  ),
  'quantity.unreadable': error(
    '`{text}` is not {wanted}.',
    'A number with a unit, for example `1.5 mm`, `1 1/8 in`, `90 mm + 3/8 in`.',
  ),
  'quantity.tooLong': error(
    'This value has {length} characters; the maximum is {max}.',
    'A value is a number with a unit, or a short sum.',
  ),
  'quantity.unit': error(
    '`{unit}` is not a unit here. Use one of: {known}.',
    'Write units as in the list. Units are case-sensitive.',
  ),
  'quantity.noUnit': error(
    '`{text}` has no unit. Use one of: {known}.',
    'Only a bare length takes the unit of the machine. Every other value needs its own unit.',
  ),
  'quantity.name': error(
    'There is no value named `{name}`.',
    'Use a name from a line above in this cell, a unit, or a value of the machine.',
  ),
  'quantity.operator': error('Operator missing between `{before}` and `{after}`.', 'For example `90 mm + 3/8 in`.'),
  'quantity.operand': error('A number is missing here.', 'Every + - * / needs a value on each side.'),
  'quantity.bracket': error('Unmatched bracket `{bracket}`.', 'Every ( needs its ).'),
  'quantity.decimalComma': error('`{text}` has a decimal comma.', 'Write a decimal point.'),
  'quantity.thousands': error(
    '`{text}` is ambiguous: one number or two?',
    'Write thousands without a space or a comma, and a decimal point.',
  ),
  'quantity.mixed': error(
    '`{text}` can be read as a difference.',
    'Write a whole number and a fraction with a space: `1 1/8 in`.',
  ),
  'quantity.dimension': error('`{text}` is of type {found}; expected {wanted}.', 'Check the unit.'),
  'quantity.range': error('`{text}` is out of range: {least} to {most}.', 'Check the number and its unit.'),
  'quantity.sign': error('`{text}` must be {must}.', 'Give the direction by a word, not by a sign.'),
  'quantity.expression': error(
    '`{text}` cannot be computed: {reason}.',
    'Use only numbers with units, + - * / ( ) and sqrt.',
  ),
  'turn.sense': error(
    'A turn must begin with `in` or `out`: `{text}`.',
    'In is clockwise for a right-hand thread: the tip advances.',
  ),
  'turn.length': error(
    '`{text}` is a length. Add `at rim` if it is travel of the knob rim.',
    'For example `in 1/8 in at rim`.',
  ),
  'turn.amount': error(
    '`{text}` is not a turn amount.',
    'For example `1/4`, `0.3 turn`, `90 deg`, `2 flats`, `1/8 in at rim`.',
  ),
  'turn.knob': error(
    'Travel at the rim needs the knob diameter, but mount `{mount}` has no `knob`.',
    'Add `knob: 14 mm` to the mount, or write the turn as a fraction.',
  ),
  'mark.unreadable': error(
    '`{text}` is not a mark.',
    'For example `1.5 right 2.0 down`, `2 at 4:30`, `centre`, `none`.',
  ),
  'mark.direction': error(
    '`{text}` has no direction.',
    'Write right or left, up or down, as seen looking along the beam at the burnt side.',
  ),
  'mark.length': error('Length missing before `{word}`.', 'Write the length, then its direction: `1.5 right`.'),
  'mark.order': error('Write the length before its direction: `{text}`.', 'For example `1.5 right 2.0 down`.'),
  'mark.word': error(
    '`{word}` is not a word of a mark.',
    'Use right, left, up, down, front, rear, centre, none, at, size, shape.',
  ),
  'mark.twice': error(
    '`{other}` and `{word}` are on the same axis.',
    'Write one length to the side and one up or down.',
  ),
  'mark.words': error(
    '`{word}` is not used on the leg to {station}, where the beam runs {runs}. Use {words}.',
    'On vertical legs only the machine’s left, right, front and rear are used.',
  ),
  'mark.comma': error('A mark has no comma.', 'Write `1.5 right 2.0 down`.'),
  'mark.clock': error(
    '`{text}` is not a time on a clock face.',
    'For example `2 mm at 4:30`: hours of a clock face, clockwise from up. Use it on level legs only.',
  ),
  'mark.shape': error(
    '`{word}` is not a shape. The shapes are {known}.',
    'A crescent means a clipped beam; a double mark means a loose or cracked optic.',
  ),
  'mark.mixed': error(
    '`{text}` gives the place in more than one way.',
    'Use one of: lengths with directions, a clock time, `centre`, `none`.',
  ),
  'mark.uncertainty': error(
    '`{text}`: {reason}.',
    'Write ± once: after the whole mark, if it applies to each part, or in the parts. It includes the placing of the tape.',
  ),
  'mark.outside': warning(
    'This mark is {distance} from the centre, outside the aperture (radius {radius}).{asked}',
    'Check: inches instead of millimetres? Left and right, or near and far, swapped?',
  ),
  'shift.far': warning(
    'This shift moves the beam to {off} from the centre of {station}, outside its aperture (radius {radius}).{asked}',
    'Check: inches instead of millimetres? Decimal point off by one place? If the part was moved this far, shoot before you move anything else.',
  ),
  'shift.unreadable': error(
    'There is no shift here.',
    'For example `1.5 mm up`, or `2 mm left 1 mm up`, in the machine’s directions.',
  ),
  'shift.direction': error(
    '`{text}` has no direction.',
    'Use a direction of the machine: left, right, front, rear, up, down.',
  ),
  'shift.length': error('Length missing before `{word}`.', 'Write the length, then its direction: `1.5 mm up`.'),
  'shift.order': error('Write the length before its direction: `{text}`.', 'For example `1.5 mm up`.'),
  'shift.word': error(
    '`{word}` is not a direction.',
    'Use a direction of the machine: left, right, front, rear, up, down.',
  ),
  'shift.twice': error(
    '`{other}` and `{word}` are on the same axis.',
    'Write at most one length for each of the three axes.',
  ),
  'shift.comma': error('A shift has no comma.', 'Write `2 mm left 1 mm up`.'),
  'date.unreadable': error('`{text}` is not a date.', 'ISO 8601: `2026-03-14` or `2026-03-14 10:20`.'),
  'date.calendar': error('`{text}` is not a valid date or time.', 'Check the day, the month and the time.'),
  'date.order': warning('{date} is earlier than {before} above it.', 'Write the cells in order of time.'),
  'interval.unreadable': error('`{text}` is not an interval.', 'For example `every 3 months`, `every 40 h`.'),
  'hours.less': warning(
    'The counter shows {hours} here, but {before} above.',
    'Hours only increase. If the counter was replaced, write its first value: `hours: new 0 h`.',
  ),
  'photo.unusable': error(
    '`{text}` cannot be used: {reason}.',
    'Use a PNG, JPEG or WebP picture inside the root folder, and write its path from this file. `sha256` has 64 hexadecimal digits.',
  ),

  // The machine
  'machine.none': error('No machine is described above this cell.', 'Begin the workbook with a `machine` cell.'),
  'machine.format': error(
    'This workbook has format {format}; this version of Alignbook reads format {known}.',
    'Use a newer version of Alignbook.',
  ),
  'machine.sends': error(
    '{name} cannot send the beam {sends}: it arrives running {arrives}.',
    'A mirror here turns the beam by a right angle.',
  ),
  'machine.mount': error('There is no mount `{name}`.', 'Describe it under `mounts`.'),
  'machine.places': error(
    'The tips of mount `{mount}` cannot be used: {reason}.',
    'Give the places of three screws, or of a pivot and two screws, that do not lie on one line. Or give no places.',
  ),
  'machine.thread': error(
    'Unknown thread `{thread}`.',
    'For example `M4`, `M4x0.5`, `8-32 UNC`; or give `pitch: 0.7 mm`.',
  ),
  'machine.from': error(
    'The machine cannot be read from `{path}`: {reason}.',
    'Write a path relative to this file and inside the repository.',
  ),

  // Silencing
  'allow.unused': warning(
    'This `allow {code}` silences nothing.',
    'It applies to its own line and the next. Delete it if the finding is gone.',
  ),
  'allow.unreadable': error(
    '`{text}` does not silence anything: {reason}.',
    'Write `# alignbook: allow CODE: reason`.',
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

export type FindingCode = keyof typeof findings;
