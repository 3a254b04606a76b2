/** Draws without a clock: the same seed always gives the same numbers. */
export interface Random {
  /** Uniform over 0 to below 4294967296, whole. */
  readonly word: () => number;
  /** Uniform over 0 < x < 1. */
  readonly uniform: () => number;
  /** Standard normal. */
  readonly normal: () => number;
}

/**
 * xoshiro128** (D. Blackman and S. Vigna, ACM Trans. Math. Softw. 2021, 47, 36), its state filled
 * from the seed by SplitMix32-style mixing (finaliser of MurmurHash3, A. Appleby, public domain).
 */
export function seededRandom(seed: number): Random {
  const word = xoshiro(seed);
  const uniform = (): number => (word() + 0.5) / 4294967296;
  return { word, uniform, normal: normalFrom(word, uniform) };
}

function xoshiro(seed: number): () => number {
  let state = seed | 0;
  const next = (): number => {
    state = (state + 0x9e3779b9) | 0;
    let x = state;
    x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
    x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
    return x ^ (x >>> 16);
  };
  let [a, b, c, d] = [next(), next(), next(), next() | 1];
  return () => {
    const scrambled = Math.imul(b, 5);
    const result = Math.imul((scrambled << 7) | (scrambled >>> 25), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    return result;
  };
}

// Ziggurat with 128 layers: G. Marsaglia and W. W. Tsang, J. Stat. Softw. 2000, 5 (8); layer and
// abscissa come from different bits, as J. A. Doornik, "An improved ziggurat method" (2005), asks.
const LAYERS = 128;
const TAIL = 3.442619855899;
const AREA = 9.91256303526217e-3;
const EDGE = new Float64Array(LAYERS + 1);
const INNER = new Float64Array(LAYERS);
(() => {
  let density = Math.exp(-0.5 * TAIL * TAIL);
  EDGE[0] = AREA / density;
  EDGE[1] = TAIL;
  for (let i = 2; i < LAYERS; i++) {
    EDGE[i] = Math.sqrt(-2 * Math.log(AREA / EDGE[i - 1]! + density));
    density = Math.exp(-0.5 * EDGE[i]! * EDGE[i]!);
  }
  EDGE[LAYERS] = 0;
  for (let i = 0; i < LAYERS; i++) INNER[i] = EDGE[i + 1]! / EDGE[i]!;
})();

function normalFrom(word: () => number, uniform: () => number): () => number {
  let bits = 0;
  let left = 0;
  return () => {
    for (;;) {
      if (left === 0) {
        bits = word();
        left = 4;
      }
      left--;
      const layer = bits & 127;
      bits >>>= 8;
      const u = (word() + 0.5) / 2147483648 - 1;
      if (Math.abs(u) < INNER[layer]!) return u * EDGE[layer]!;
      if (layer === 0) return tailFrom(uniform, u < 0);
      const x = u * EDGE[layer]!;
      const outer = Math.exp(-0.5 * (EDGE[layer]! * EDGE[layer]! - x * x));
      const inner = Math.exp(-0.5 * (EDGE[layer + 1]! * EDGE[layer + 1]! - x * x));
      if (inner + uniform() * (outer - inner) < 1) return x;
    }
  };
}

/** Beyond the last layer: G. Marsaglia, Technometrics 1964, 6, 101. */
function tailFrom(uniform: () => number, negative: boolean): number {
  for (;;) {
    const x = Math.log(uniform()) / TAIL;
    const y = Math.log(uniform());
    if (-2 * y >= x * x) return negative ? x - TAIL : TAIL - x;
  }
}
