/** The width available to a figure in this page, in pixels. */
import { useEffect, useState } from 'preact/hooks';

/** The padding in `style.ts`. */
const PADDING = 12;

export function useAvailableWidth(): number {
  const availableWidth = () => document.documentElement.clientWidth - 2 * PADDING;
  const [width, setWidth] = useState(availableWidth);
  useEffect(() => {
    const resized = () => setWidth(availableWidth());
    addEventListener('resize', resized);
    return () => removeEventListener('resize', resized);
  }, []);
  return width;
}
