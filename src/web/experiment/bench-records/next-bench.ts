/** "Bench 4" after the benches 1 to 3: the number above the highest that stands alone behind "Bench". */
export function nextBench(names: readonly string[]): string {
  const numbers = names.map((name) => Number(/^bench\s*(\d{1,4})$/i.exec(name.trim())?.[1] ?? 0));
  return `Bench ${Math.max(0, ...numbers) + 1}`;
}
