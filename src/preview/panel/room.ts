/** Pixels that a figure may be wide in this page. */
import { useEffect, useState } from 'preact/hooks';

/** As `style.ts` has it at the sides of the page. */
const PADDING = 12;

export function useRoom(): number {
  const room = () => document.documentElement.clientWidth - 2 * PADDING;
  const [width, setWidth] = useState(room);
  useEffect(() => {
    const resized = () => setWidth(room());
    addEventListener('resize', resized);
    return () => removeEventListener('resize', resized);
  }, []);
  return width;
}
