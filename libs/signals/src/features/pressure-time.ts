/**
 * The integral of pressure over time up to sample `last`, by trapezoids: pressure's unit times seconds. It says how
 * severe a run was; it is not an energy (that would need the volume that flowed).
 */
export function pressureTime(time: Float64Array, pressure: Float64Array, last: number): number {
  let sum = 0;
  for (let i = 1; i <= last; i++)
    sum +=
      (((pressure[i] as number) + (pressure[i - 1] as number)) / 2) * ((time[i] as number) - (time[i - 1] as number));
  return sum;
}
