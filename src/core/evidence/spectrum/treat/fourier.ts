/** In place: X[k] = Σ x[n]·exp(∓2πi·kn/N), N a power of two; the inverse is not scaled. */
export function fourier(re: Float64Array, im: Float64Array, inverse = false): void {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i >= j) continue;
    [re[i], re[j]] = [re[j]!, re[i]!];
    [im[i], im[j]] = [im[j]!, im[i]!];
  }
  for (let size = 2; size <= n; size *= 2) {
    const half = size / 2;
    const turn = ((inverse ? 2 : -2) * Math.PI) / size;
    for (let k = 0; k < half; k++) {
      const [c, s] = [Math.cos(turn * k), Math.sin(turn * k)];
      for (let i = k; i < n; i += size) {
        const j = i + half;
        const a = re[j]! * c - im[j]! * s;
        const b = re[j]! * s + im[j]! * c;
        re[j] = re[i]! - a;
        im[j] = im[i]! - b;
        re[i]! += a;
        im[i]! += b;
      }
    }
  }
}
