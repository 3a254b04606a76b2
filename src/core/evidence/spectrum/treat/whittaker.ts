/**
 * The curve z that makes Σ w (y − z)² + stiffness · Σ (second differences of z)² least: the smoother
 * of Whittaker (1923) in the form of Eilers (2003), Anal. Chem. 75, 3631. The matrix has five
 * diagonals and is solved by LDLᵀ in one pass. Points of weight nought are filled in.
 */
export function whittaker(y: Float64Array, weights: Float64Array, stiffness: number) {
  const n = y.length;
  const diagonal = new Float64Array(n);
  const first = new Float64Array(n);
  const second = new Float64Array(n);
  const z = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    // Row i of DᵀD: each second difference 1, −2, 1 that holds point i, point i + 1, point i + 2
    let [own, next] = [0, 0];
    if (i >= 2) own += 1;
    if (i >= 1 && i + 1 < n) own += 4;
    if (i + 2 < n) own += 1;
    if (i >= 1 && i + 1 < n) next -= 2;
    if (i + 2 < n) next -= 2;
    // A grain of weight everywhere, so that a stretch of nought still has one answer
    let d = weights[i]! + 1e-15 * stiffness + stiffness * own;
    let e = i + 1 < n ? stiffness * next : 0;
    const f = i + 2 < n ? stiffness : 0;
    let right = weights[i]! * y[i]!;
    if (i >= 1) {
      const l = first[i - 1]!;
      d -= l * l * diagonal[i - 1]!;
      e -= l * second[i - 1]! * diagonal[i - 1]!;
      right -= l * z[i - 1]!;
    }
    if (i >= 2) {
      const l = second[i - 2]!;
      d -= l * l * diagonal[i - 2]!;
      right -= l * z[i - 2]!;
    }
    diagonal[i] = d;
    first[i] = e / d;
    second[i] = f / d;
    z[i] = right;
  }
  for (let i = 0; i < n; i++) z[i]! /= diagonal[i]!;
  for (let i = n - 2; i >= 0; i--) {
    z[i]! -= first[i]! * z[i + 1]!;
    if (i + 2 < n) z[i]! -= second[i]! * z[i + 2]!;
  }
  return z;
}
