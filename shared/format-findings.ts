/** Findings of the format: reported where a value is read, with a case in `test/cases`. Severities: `findings.ts`. */
import { error, hint, warning, type Wording } from './wording.ts';

export const formatFindings = {
  // The file and its cells
  'file.unreadable': error(
    'This file cannot be read: {reason}.',
    'Check the path and the read permission. The other files were checked.',
  ),
  'cells.conflict': error(
    'Unresolved version-control conflict. Both sides are read as cells. Until it is resolved, nothing is advised.',
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
  'cell.blank': error(
    '{place} is blank: write {wanted}.',
    'Fill it in, or delete the key. At the end of the log a blank may wait (information); cells below it make it an error.',
  ),
  'cell.word': error('`{word}` is not one of {words}.', 'Use one of the words listed.'),
  'cell.together': error('{place}: {reason}.', 'Delete or change one of the two.'),
  'cell.flowMark': error(
    '`{key}` was read as a key: inside `{ }` a comma ends a value.',
    'Write the mark without a comma: `near: 1.5 right 2.0 down`.',
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
    '`{text}` gives the place more than once.',
    'Use one of: lengths with directions, a clock time, `centre`, `none`.',
  ),
  'mark.uncertainty': error(
    '`{text}`: {reason}.',
    'Write ± once: after the whole mark, if it applies to each part, or in the parts. It includes the placing of the tape.',
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
  'interval.unreadable': error('`{text}` is not an interval.', 'For example `every 3 months`, `every 40 h`.'),
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
} as const satisfies Record<string, Wording>;
