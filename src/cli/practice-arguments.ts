/** The words of `practice`: a new workbook by seed and level, or one of three views of a workbook. */
import type { Simulation } from '../model/index.ts';

/** A new workbook, or one of the three views of a practice workbook. */
export type PracticeOptions = { readonly command: 'practice' } & (
  | { readonly make: Simulation; readonly out?: string }
  | { readonly show: 'fire' | 'compare' | 'closing'; readonly file: string; readonly out?: string }
);

interface Values {
  readonly seed?: string | undefined;
  readonly level?: string | undefined;
  readonly fire?: boolean | undefined;
  readonly compare?: boolean | undefined;
  readonly closing?: boolean | undefined;
  readonly out?: string | undefined;
}

const VIEWS = ['fire', 'compare', 'closing'] as const;

export function practiceInvocation(
  [file, ...others]: readonly string[],
  values: Values,
): PracticeOptions | { readonly command: 'wrong'; readonly reason: string } {
  const wrong = (reason: string) => ({ command: 'wrong', reason }) as const;
  const { seed, level, out } = values;
  const to = out === undefined ? {} : { out };
  const [show, another] = VIEWS.filter((view) => values[view] === true);
  if (another !== undefined) return wrong(`\`--${show}\` and \`--${another}\` exclude each other.`);
  if (show !== undefined) {
    if (seed !== undefined || level !== undefined)
      return wrong(`\`--${show}\` takes no \`--seed\` and no \`--level\`: the workbook has them.`);
    if (file === undefined || others.length > 0) return wrong(`\`practice --${show}\` needs one workbook.`);
    if (out !== undefined && show !== 'fire') return wrong(`\`--${show}\` takes no \`--out\`.`);
    if (out !== undefined && out !== '-' && !/\.(svg|png)$/i.test(out))
      return wrong(`\`${out}\` is not a .svg or .png file.`);
    return { command: 'practice', show, file, ...to };
  }
  if (file !== undefined)
    return wrong('`practice` makes a new workbook with `--seed`, `--level` and `--out`, or takes `--fire FILE`.');
  if (seed !== undefined && !/^\d{1,15}$/.test(seed))
    return wrong(`\`--seed ${seed}\` is not a whole number of up to 15 digits.`);
  if (level !== undefined && !/^[1-5]$/.test(level)) return wrong(`\`--level ${level}\` is not a level: 1 to 5.`);
  if (out !== undefined && out !== '-' && !/\.alignbook\.yaml$/.test(out))
    return wrong(`\`${out}\` is no name of a workbook: it ends in .alignbook.yaml.`);
  return { command: 'practice', make: { seed: Number(seed ?? 1), level: Number(level ?? 1) }, ...to };
}
