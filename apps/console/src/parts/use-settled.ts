import { useEffect, useState } from 'react';

/** A value once it has stood still for so long, in ms: a slider on its way asks nothing of the service. */
export function useSettled<T>(value: T, still = 400): T {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), still);
    return () => clearTimeout(timer);
  }, [value, still]);
  return settled;
}
