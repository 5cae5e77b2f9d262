/**
 * Every finding: its stable code, how grave it is, its wording with `{facts}`, and help for the person who
 * meets it. One table, so that the command line, the editor and the docs say the same.
 *
 * Severity: `error` the cell, or the value, cannot be used; `warning` it is used, but a sign, a unit or a
 * reading is probably not what was meant; `information` worth knowing; `hint` style.
 */
import { error, hint, information, warning, type Named, type Wording } from './wording.ts';

export type { Severity } from './wording.ts';

export const findings = {
  // The file and its cells
  'file.unreadable': error(
    'This file cannot be read: {reason}.',
    'Check the path and that the file may be read. The other files were checked.',
  ),
  'cells.conflict': error(
    'A version-control conflict is still open here. Both sides are read as cells.',
    'Keep both sides in the order of time, or one of them, and delete the marker lines.',
  ),
  'cells.empty': hint('This cell is empty.', 'Delete the extra `---` line, or write the cell.'),
  'cells.loneReturn': error('A lone carriage return does not end a line.', 'Save the file with LF or CRLF line ends.'),
  'cells.directive': error('`{directive}` is not understood. Only `%YAML 1.2` may stand here.', 'Delete the line.'),
  'cells.afterEnd': error(
    'Text after `...` needs a `---` line before it.',
    'Put `---` on a line of its own before this text, or delete the `...`.',
  ),
  'cells.limit': error(
    'This cannot be read safely: {what}.',
    'A workbook is a log written by hand, a cell a few lines. Split the file, or delete what does not belong in it.',
  ),

  // YAML
  'yaml.syntax': error(
    'This is not YAML: {reason}',
    'Often a missing quote, a tab, or a `:` inside a text. Quote the text.',
  ),
  'yaml.tag': error('The tag `{tag}` has no meaning here.', 'Delete the tag; every value is read as its text.'),
  'yaml.merge': error('Merge keys `<<` are not read.', 'Write the keys out.'),
  'yaml.alias': error('`*{name}` refers to nothing in this cell.', 'Anchors do not cross cells. Write the value out.'),
  'yaml.duplicate': error(
    '`{key}` stands twice in this {what}.',
    'Keep one of them. A later cell may replace an earlier one; a key cannot.',
  ),

  // The shape of a cell
  'cell.mapping': error(
    'A cell is a mapping of keys to values, and this is {found}.',
    'Begin with the cell’s kind, for example `marks: M2`.',
  ),
  'cell.kind': error(
    'This cell has no kind. It needs exactly one of: {kinds}.',
    'Begin the cell with its kind, for example `marks: M2`.',
  ),
  'cell.kinds': error('This cell has two kinds, `{first}` and `{second}`.', 'Put a `---` line between them.'),
  'cell.kindFirst': hint('The kind `{kind}` usually stands first.', 'The formatter moves it to the top.'),
  'cell.key': error('`{key}` is not a key of {place}.', 'Keys that begin with `x-` are yours and are not checked.'),
  'cell.missing': error('`{key}` is missing from {place}.', 'Add it: nothing is assumed in its place.'),
  'cell.shape': error('{place} takes {wanted}, and this is {found}.', 'See the example in the format’s description.'),
  'cell.word': error('`{word}` is not one of {words}.', 'Use one of the words listed.'),
  'cell.together': error('{place}: {reason}.', 'One of the two has to go, or to change.'),
  'cell.flowMark': error(
    '`{key}` was read as a key: inside `{ }` a comma ends a value.',
    'Write the mark without a comma: `near: 1.5 right 2.0 down`.',
  ),

  'mount.contradicted': error(
    'Mount `{mount}` is described wrongly: {what}. Write {fix}.',
    'Two responses agree with this and not with the machine cell. Advice already uses what was learnt. Check it by hand: turn one screw in by 1/4 and see which way its corner moves.',
  ),
  'limits.fine': information(
    'This limit ({limit}) is finer than one shot can show: it takes {shots} shots of every place to be {confidence} % sure.',
    'Widen the limit, or read finer: a smaller `resolution`, a tape set more carefully.',
  ),

  // Names and values
  'name.unreadable': error(
    '`{name}` is not a name: a letter first, then letters, digits and `_`.',
    'For example `M1`, `rear`, `corner_mount`.',
  ),
  'name.quote': hint('Some YAML readers take `{name}` for something other than text.', 'Quote it: `"{name}"`.'),
  'name.reserved': error('`{name}` already means something here.', 'Choose another name.'),
  'name.unknown': error(
    'There is no {what} `{name}` in machine `{machine}`.',
    'Names are the machine cell’s own; capitals count.',
  ),
  'quantity.unreadable': error(
    '`{text}` is not {wanted}.',
    'A number with a unit, for example `1.5 mm`, `1 1/8 in`, `90 mm + 3/8 in`.',
  ),
  'quantity.tooLong': error(
    'This value has {length} characters, and {max} are the most.',
    'A value is a number with a unit, or a short sum.',
  ),
  'quantity.unit': error(
    '`{unit}` is not a unit here. Known are: {known}.',
    'Units are written as in the list; capitals count.',
  ),
  'quantity.noUnit': error(
    '`{text}` has no unit. Known are: {known}.',
    'Only a bare length takes the machine’s unit; everything else says its own.',
  ),
  'quantity.name': error(
    'There is no value named `{name}`.',
    'The names above it in the same cell, units, and the machine’s own values.',
  ),
  'quantity.operator': error('Between `{before}` and `{after}` a sign is missing.', 'For example `90 mm + 3/8 in`.'),
  'quantity.operand': error('A number is missing here.', 'Every + - * / stands between two values.'),
  'quantity.bracket': error('The other half of the bracket `{bracket}` is missing.', 'Every ( needs its ).'),
  'quantity.decimalComma': error('`{text}` has a decimal comma.', 'Write a decimal point.'),
  'quantity.thousands': error(
    'It is not clear whether `{text}` is one number or two.',
    'Write thousands without a space or a comma, and a decimal point.',
  ),
  'quantity.mixed': error(
    '`{text}` can be read as a difference.',
    'Write a whole number and a fraction with a space: `1 1/8 in`.',
  ),
  'quantity.dimension': error('`{text}` is of the kind {found}, where {wanted} belongs.', 'Check the unit.'),
  'quantity.range': error('`{text}` is out of range: {least} to {most}.', 'Check the number and its unit.'),
  'quantity.sign': error('`{text}` must be {must}.', 'The direction is told by a word, not by a sign.'),
  'quantity.expression': error(
    '`{text}` cannot be computed: {reason}.',
    'Only numbers with units, + - * / ( ) and sqrt.',
  ),
  'turn.sense': error(
    'A turn begins with its direction, `in` or `out`: `{text}`.',
    'In is clockwise for a right-hand thread: the tip advances.',
  ),
  'turn.length': error(
    '`{text}` is a length. Travel of the knob’s rim needs `at rim`.',
    'For example `in 1/8 in at rim`.',
  ),
  'turn.amount': error(
    '`{text}` is not an amount of turning.',
    'For example `1/4`, `0.3 turn`, `90 deg`, `2 flats`, `1/8 in at rim`.',
  ),
  'turn.knob': error(
    'Travel at the rim needs the knob’s diameter, and mount `{mount}` has no `knob`.',
    'Add `knob: 14 mm` to the mount, or write the turn as a fraction.',
  ),
  'mark.unreadable': error(
    '`{text}` is not a mark.',
    'For example `1.5 right 2.0 down`, `2 at 4:30`, `centre`, `none`.',
  ),
  'mark.direction': error(
    '`{text}` has no direction.',
    'Looking along the beam at the burnt side: right or left, up or down.',
  ),
  'mark.length': error('Before `{word}` a length is missing.', 'The length first, then its direction: `1.5 right`.'),
  'mark.order': error('The length stands before its direction: `{text}`.', 'For example `1.5 right 2.0 down`.'),
  'mark.word': error(
    '`{word}` is not a word of a mark.',
    'right, left, up, down, front, rear, centre, none, at, size, shape.',
  ),
  'mark.twice': error('`{other}` and `{word}` run along the same line.', 'One length to the side and one up or down.'),
  'mark.words': error(
    '`{word}` is not used on the leg to {station}, where the beam runs {runs}; there it is {words}.',
    'On vertical legs only the machine’s left, right, front and rear are used.',
  ),
  'mark.comma': error('A mark has no comma.', 'Write `1.5 right 2.0 down`.'),
  'mark.clock': error(
    '`{text}` is not a time on a clock face.',
    'For example `2 mm at 4:30`: hours of a clock face, clockwise from up, on level legs only.',
  ),
  'mark.shape': error(
    '`{word}` is not a shape. The shapes are {known}.',
    'A crescent is a clipped beam, a double mark a loose or cracked optic.',
  ),
  'mark.mixed': error(
    '`{text}` tells the place in more than one way.',
    'Lengths with directions, or a time of the clock face, or `centre`, or `none`.',
  ),
  'mark.uncertainty': error(
    '`{text}`: {reason}.',
    'Write ± once: behind the whole mark, where it is that of each part, or in the parts. It includes the placing of the tape.',
  ),
  'mark.outside': warning(
    'This mark is {distance} from the middle, outside the {radius} radius of the hole.{asked}',
    'Inches for millimetres? Left and right, near and far in their places?',
  ),
  'shift.far': warning(
    'This shift takes the beam to {off} from the middle of {station}, outside the {radius} radius of its hole.{asked}',
    'Inches for millimetres, or a decimal point one place aside? If it was moved so far, shoot it before anything else is moved.',
  ),
  'shift.unreadable': error(
    'There is no shift here.',
    'For example `1.5 mm up`, or `2 mm left 1 mm up`, in the machine’s directions.',
  ),
  'shift.direction': error('`{text}` has no direction.', 'The machine’s own: left, right, front, rear, up, down.'),
  'shift.length': error('Before `{word}` a length is missing.', 'The length first, then its direction: `1.5 mm up`.'),
  'shift.order': error('The length stands before its direction: `{text}`.', 'For example `1.5 mm up`.'),
  'shift.word': error('`{word}` is not a direction.', 'The machine’s own: left, right, front, rear, up, down.'),
  'shift.twice': error(
    '`{other}` and `{word}` run along the same line.',
    'One length for each of the three lines at most.',
  ),
  'shift.comma': error('A shift has no comma.', 'Write `2 mm left 1 mm up`.'),
  'date.unreadable': error('`{text}` is not a date.', 'ISO 8601: `2026-03-14` or `2026-03-14 10:20`.'),
  'date.calendar': error('`{text}` is not on any calendar or clock.', 'Check the day, the month and the time.'),
  'date.order': warning(
    '{date} is earlier than {before}, which stands above it.',
    'A workbook is a log: later cells come later.',
  ),
  'interval.unreadable': error('`{text}` is not an interval.', 'For example `every 3 months`, `every 40 h`.'),
  'hours.less': warning(
    'The counter shows {hours} here, and {before} above.',
    'Hours only grow. A counter that was changed begins anew: `hours: new 0 h`.',
  ),
  'photo.unusable': error(
    '`{text}` cannot be used: {reason}.',
    'A picture in PNG, JPEG or WebP, by its path from this file, inside the root folder; `sha256` has 64 hexadecimal digits.',
  ),

  // The machine
  'machine.none': error('No machine is described above this cell.', 'Begin the workbook with a `machine` cell.'),
  'machine.format': error(
    'This workbook is written in format {format}, and this tool reads format {known}.',
    'Use a newer version of the tool.',
  ),
  'machine.sends': error(
    '{name} cannot send the beam {sends}: it arrives running {arrives}.',
    'A mirror here turns the beam by a right angle.',
  ),
  'machine.mount': error('There is no mount `{name}`.', 'Describe it under `mounts`.'),
  'machine.places': error(
    'The tips of mount `{mount}` cannot be used: {reason}.',
    'Three screws, or a pivot and two, that do not lie on one line; or no places at all.',
  ),
  'machine.thread': error(
    '`{thread}` is not a thread this tool knows.',
    'For example `M4`, `M4x0.5`, `8-32 UNC`; or give `pitch: 0.7 mm`.',
  ),
  'machine.from': error(
    'The machine cannot be taken from `{path}`: {reason}.',
    'The path is relative to this file and stays inside the repository.',
  ),

  // Silencing
  'allow.unused': warning(
    'This `allow {code}` silences nothing.',
    'It works on its own line and the next. Delete it if the finding is gone.',
  ),
  'allow.unreadable': error(
    '`{text}` does not silence anything: {reason}.',
    'Write `# alignbook: allow CODE: reason`.',
  ),

  // What the log means
  'log.unread': warning(
    'Because this cell cannot be read whole, {reach} no longer count as read.',
    'Fix the cell; it then counts.',
  ),
  'log.noLimits': information(
    'Station {station} has no limits, so nothing can be said to be within.',
    'Add it to a `limits` cell.',
  ),
  'log.beam': warning(
    'As written the beam is at least {width} wide at {name}, whose hole is {aperture} wide.',
    '`diameter` is the 1/e² diameter at the tube’s exit, `divergence` the full angle, usually a few mrad. The figures for light and for eyewear rest on both.',
  ),
  'log.bowed': warning(
    'Halfway along the travel the mark on {station} is off the line through its ends: {way} ± {u}. No screw can remove that.',
    'The rail is bent or sags, or the carriage pitches or yaws on it. Check the rail with a straightedge, its supports, and the play of the carriage on it.',
  ),
  'log.racking': warning(
    '{carriage} turns along its travel: at {station} the two ends differ by {amount} ± {u} more than the angles explain. No screw can remove that.',
    'The gantry racks: one side lags behind the other, or its rails are not parallel. Check belts, pulleys and the square of the gantry.',
  ),
  'beam.impossible': warning(
    'No beam has these figures together: {diameter} wide with M² {ratio} it spreads by {least} mrad or more (4 M² λ/(π D)), and {divergence} mrad is written.',
    '`divergence` is the full angle, `diameter` the 1/e² diameter at the tube’s exit. Look both up in the tube’s data sheet, or leave out `M2` or `divergence`. Until then `light` computes no width and no spot.',
  ),
  'log.height': warning(
    'At {station} the marks coincide but stand {distance} from the middle: {way}. A mirror’s screws cannot remove that.',
    'Tube and mirror heights differ, or the aperture is off its place. Tube, block or shims.',
  ),
  'log.unexpected': warning(
    'The mark on {station}{place} is {mark}. From the rest of the log it would be {expected} ± {within} (95 %). {effect}{asked}',
    'A turn written the wrong way or not at all, a screw that slipped, a mark on the wrong side, or something knocked. Shoot the place again on fresh, labelled tape. Fix the entry that is wrong, or log above these marks what happened: `event: collision`.',
  ),
  'log.misread': information(
    'The mark on {station}{place} did not come again and is not used.',
    'It was misread, or an old mark was taken for the new one. Label every tape.',
  ),
  'log.scatter': warning(
    'Marks of one place on {station}{place} lie {distance} apart although nothing was moved in between.',
    'The same tape gives different answers: a mirror, optic or rail is loose, or a mark was misread. Shoot the place again; nothing is within until the marks agree.',
  ),
  'log.loose': error(
    '{part} is loose: marks of one place on {station}{place} lie {distance} apart although nothing was moved in between.',
    'The same tape gives different answers, and only behind this part. Do not shoot or turn anything. Take hold of it, tighten what moves, and log it: `care:` with `did: tightened`.',
  ),
  'log.reading': warning(
    'The marks of this session scatter {factor} times as much as the declared reading: ± {used} is used instead of ± {declared}.',
    'Read finer, use a smaller pulse, set the tape more carefully; or write `reading:` as it is in the limits cell.',
  ),
  'log.unmoved': warning(
    'The marks on {station} are where they were before the turn of {screws}: it moved nothing.',
    'A lock nut still tight, the wrong mirror, or a screw that turns free. Mark the knob with a pen, turn 1/4, and see that the plate moves.',
  ),

  // What a mark's form says, and power
  'mark.double': warning(
    'The mark on {station}{place} is double: a loose or cracked optic, or a tube that is not in its lowest mode.',
    'With the beam off look at every mirror before it, with torch and mirror, and log what you find in a care cell. If the first tape shows a double mark too, it is the tube. Then shoot the place again on fresh tape: the station is not within until another mark stands there.',
  ),
  'mark.crescent': warning(
    'The mark on {station}{place} is a crescent: something upstream clips the beam, on the side that is bitten off.',
    'Look along the path for what the beam grazes there: an aperture, a mount, a cover, a cable; on tape behind an aperture, its own rim. Then shoot the place again on fresh tape: the station is not within until another mark stands there.',
  ),
  'mark.growth': warning(
    'The mark on {far} is {size} wide. From {from} on {near} the beam’s divergence makes {expected} of it.',
    'Sizes are compared at one pulse, and only a growth of two standard uncertainties is said (burns good to 10 %, a data sheet’s divergence to 20 %: common practice, no source). The beam spreads more than `source` says, the tube is not in its lowest mode, or a mirror on the way is warm, bent in its mount or dirty. Look at the mirrors between the two, and at `beam` in the machine cell.',
  ),
  'power.loss': warning(
    '{through} {share} of the power, where clean optics pass about {clean}: 10 % or more is lost, at 95 % confidence. {look}.',
    'A clean optic loses one or two per cent (common practice, no source). Look with torch and mirror for dirt, a burnt or cracked coating, or a beam that an aperture clips; clean only what is dirty, log it in a care cell, and measure again.',
  ),

  // What else is measured
  'measure.outside': warning(
    '{what} is {value}, outside its limits: {limit}.',
    'Correct it, measure again, and log that. If the limit is wrong, give another in a later cell of this name.',
  ),

  // Parts that are not fired at
  'care.unfit': error(
    '{part} was found {found}. {since}.',
    'Replace it, or tighten what is loose, and log that: `did: replaced` or `did: tightened`. If it is sound after all: `found: clean`, `did: inspected` and a `note` that says why. Once it is cleared this is information. A cracked optic breaks under the beam; zinc selenide is toxic.',
  ),
  'care.refit': warning(
    '{part} is logged the wrong way round: {how}.',
    'Turn it before it is closed, then log how it lies: `refit: {flat side: down, …}`. The wrong way round a zinc selenide lens blurs its spot about three times as much. A meniscus has no flat side to log, and equal faces may go either way.',
  ),
  'release.unfit': error(
    'Put back in service with {what}.',
    'Replace what is unfit, or tighten what is loose, and log that above the release; or withdraw the machine. A release that was signed with an unfit part stays wrong.',
  ),
  'release.measured': warning(
    'Released to service with {what} outside its limits.',
    'Correct it, measure again, and log that above the release.',
  ),
  'release.practice': error(
    'A practice machine cannot be released: it is simulated.',
    'Delete this cell. What was practised is no record of a machine.',
  ),

  // Visits
  'session.missing': hint(
    'The machine was released above, and no session was opened since. A visit without a name begins here; no mark from before the release counts in it.',
    'Write a `session` cell above this one, with `date` and `by`: `session: spring service`.',
  ),

  // The order of work
  'fire.unchecked': warning(
    'The first shot of this visit has no safety checks above it. The beam burns eyes and skin at once.',
    'Before you fire: eyewear, covers, extraction, cooling, somebody watching. Write what was done in a `checks` cell above the shot.',
  ),
  'fire.open': warning(
    'Fired while this is still open: {items}.',
    'Do what is open first, then log it: `done` in a `checks` cell above the shot.',
  ),
  'fire.pulse': warning(
    'The pulse’s {what} of {used} is more than the {most} that the machine cell allows for a test shot. A strong pulse burns through the tape and fouls the optics.',
    'Shoot with less. If the log is wrong, write what was used.',
  ),
  'fire.tape': information(
    'This tape carried marks already, and an old mark is easily read for the new one.',
    'Use fresh tape for each shot, or label the marks. If in doubt, shoot again.',
  ),
  'order.upstream': warning(
    'The beam arrives at {station} outside its limits, and {part}, which aims it onward, is turned already. When its arrival is put right, this has to be done again.',
    'First bring {station} within with what stands before it in the path, then aim onward.',
  ),
  'order.locked': warning(
    '{part} is turned while the log has its lock nuts tight. Tight nuts hold the mirror: the turn did little, or the nuts were loosened and moved it.',
    'If they were loosened, log that before the turn: `lock: loose`. Tighten them in the end, and shoot once more.',
  ),
  'order.noLocks': warning(
    'This cell says how the lock nuts of {part} are, and its mount `{mount}` has none: `locks: none`.',
    'If there are nuts, write `locks: nut` in the mount: then the advice loosens and tightens them. Else take `lock` out of this cell.',
  ),
  'release.open': warning(
    'Put back in service while this is still open: {items}.',
    'Do it and log it in a `checks` cell, `done`, before the release. What the machine can work without belongs in a note.',
  ),
  'release.loose': warning(
    'Put back in service with the lock nuts of {parts} loose or still to be tightened. A loose mirror walks as the machine shakes.',
    'Tighten the lock nuts, log it, and shoot again.',
  ),
  'release.locked': warning(
    'Put back in service with {stations} not shot since a lock was tightened. Tightening moves mirrors.',
    'Shoot once more with everything tight, and log the marks before the release.',
  ),
  'release.removed': warning(
    'Put back in service with {stations} not shot since an optic was taken out, replaced or tightened. It never stands quite as it did.',
    'Shoot once more, and log the marks before the release.',
  ),
  'release.stale': warning(
    'Put back in service with {stations} not shot since the beam may last have moved. The older marks no longer say where it is.',
    'Shoot once more, and log the marks before the release. What is left out on purpose needs no limits.',
  ),
  'release.corners': warning(
    'Put back in service with {stations} not shot at all the places it takes. A beam that is good in one corner may be lost in the other.',
    'Shoot near and far, where two carriages move the tape at two opposite corners of the bed, and where plumb has a limit at two heights, unless it was shot before and only small turns came since.',
  ),
  'release.outside': warning(
    'Put back in service while {stations} cannot be called within.',
    'See the next step, or widen the limits if the work allows it.',
  ),
  'release.refit': warning(
    '{part} was out, and the log does not say that all of it went back right: {what}. A lens the wrong way round or askew spoils the focus.',
    'Look, then log it: `refit: {flat side: down, ring: snug, witness: lined up, hose: refitted}` in a care cell.',
  ),
  'by.missing': information(
    'This does not say who answers for it. A record is worth what the name under it is worth.',
    'Write your name or initials: `by: kt`.',
  ),
  'care.overdue': information(
    'Care of {part} was due on {due}; the last is logged on {last}. Dirt on an optic burns in.',
    'Inspect it, clean it only where it is dirty, and log that in a care cell. Hours of firing are not in the log: what is due `every 40 h` is yours to count.',
  ),
} as const satisfies Record<string, Wording>;

export type FindingCode = keyof typeof findings;

export type FactName<C extends FindingCode> = Named<(typeof findings)[C]['message']>;

/** The facts that a finding's wording names; it may carry more, for fixes. */
export type FactsOf<C extends FindingCode> = { readonly [Name in FactName<C>]: string } & Facts;

export type Facts = Readonly<Record<string, string>>;

/**
 * Told of the log as it stands at its end. They go when it grows, and may come back when a cell is mended: what silences one is
 * never idle.
 */
export const PASSING: readonly FindingCode[] = [
  'log.noLimits',
  'log.bowed',
  'log.racking',
  'log.height',
  'log.unexpected',
  'release.outside',
  'care.overdue',
];
