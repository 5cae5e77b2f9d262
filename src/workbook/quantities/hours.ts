/** The machine's hour counter: `1234 h`, or `new 0 h` if the counter was replaced. */
import type { Counter } from '../../model/index.ts';
import type { QuantityContext } from './measured.ts';
import { read, refuse, shifted, type Reading } from './reading.ts';
import { readTime } from './scalars.ts';
import { unitNamed } from './units.ts';

const NEW = /^\s*new\s+/;

/** Hours; a number without a unit is in hours. Problems: those of a time. */
export function readHours(text: string, context: QuantityContext): Reading<Counter> {
  const before = NEW.exec(text)?.[0] ?? '';
  const rest = text.slice(before.length);
  const hours = /[A-Za-zµμ]/.test(rest) ? rest : `${rest} h`;
  const { value, problems } = shifted(readTime(hours, context, 'not negative'), before.length);
  if (value === undefined) return refuse(...problems);
  return read({ hours: value.value / unitNamed('h')!.factor, ...(before !== '' && { isNew: true as const }) });
}
