import { create } from 'qrcode';

/** A text as a code for a camera: the dark squares as one path, row by row. */
export function codeOf(text: string): { readonly path: string; readonly side: number } {
  const { modules } = create(text, { errorCorrectionLevel: 'M' });
  const { size, data } = modules;
  let path = '';
  for (let y = 0; y < size; y++)
    for (let x = 0; x < size; x++) {
      if (data[y * size + x] === 0) continue;
      let run = 1;
      while (x + run < size && data[y * size + x + run] !== 0) run++;
      path += `M${x} ${y}h${run}v1h-${run}z`;
      x += run;
    }
  return { path, side: size };
}
