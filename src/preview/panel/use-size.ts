/** The size of the page, in pixels. */
import { useEffect, useState } from 'preact/hooks';

export interface Size {
  readonly width: number;
  readonly height: number;
}

export function usePageSize(): Size {
  const measured = (): Size => ({ width: document.documentElement.clientWidth, height: window.innerHeight });
  const [size, setSize] = useState(measured);
  useEffect(() => {
    const resized = () => setSize(measured());
    addEventListener('resize', resized);
    return () => removeEventListener('resize', resized);
  }, []);
  return size;
}
