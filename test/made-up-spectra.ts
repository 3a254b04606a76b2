/**
 * Infrared spectra that nobody measured: Gaussian bands where the handbooks put them, with a little
 * noise, as the table that an instrument exports.
 */
type Band = readonly [position_percm: number, height: number, halfWidth_percm: number];

function table(bands: readonly Band[]): string {
  const lines = ['wavenumber (1/cm),absorbance'];
  for (let x = 4000; x >= 500; x -= 2) {
    const noise = 0.0008 * Math.sin(x * 12.9898) * Math.cos(x * 78.233);
    const a = bands.reduce((all, [at, h, w]) => all + h * Math.exp(-(((x - at) / w) ** 2)), noise);
    lines.push(`${x},${a.toFixed(5)}`);
  }
  return lines.join('\n');
}

const ALKYL: readonly Band[] = [
  [2950, 0.5, 25],
  [2868, 0.3, 20],
  [1455, 0.2, 12],
  [1375, 0.1, 10],
];
const HYDROXYL: readonly Band[] = [
  [3340, 0.45, 110],
  [1052, 0.6, 14],
  [1100, 0.2, 12],
  [960, 0.15, 10],
];

export const KETONE = table([...ALKYL, [1715, 0.9, 10], [1220, 0.15, 10], [1120, 0.1, 10]]);
export const ALCOHOL = table([...ALKYL, ...HYDROXYL]);
/** The alcohol with a quarter of the ketone's band still in it. */
export const ALCOHOL_WITH_KETONE = table([...ALKYL, ...HYDROXYL, [1715, 0.25, 10]]);
