/** Numbers that are collected one by one, without knowing how many there will be. */
export interface Points {
  values: Float64Array;
  count: number;
}

export const points = (capacity = 1024): Points => ({
  values: new Float64Array(Math.max(16, capacity)),
  count: 0,
});

/** Puts `value` at the end `times` times. */
export function push(points_: Points, value: number, times = 1): void {
  const wanted = points_.count + times;
  if (wanted > points_.values.length) {
    const grown = new Float64Array(Math.max(2 * points_.values.length, wanted));
    grown.set(points_.values);
    points_.values = grown;
  }
  if (times === 1) points_.values[points_.count] = value;
  else points_.values.fill(value, points_.count, wanted);
  points_.count = wanted;
}

export const collected = (points_: Points): Float64Array => points_.values.slice(0, points_.count);
