import { PNG } from 'pngjs';

/** A small photo: yellow crystals, say. */
export function smallPhoto(): Buffer {
  const png = new PNG({ width: 24, height: 16 });
  for (let at = 0; at < png.data.length; at += 4) png.data.set([233, 196, 70 + (at % 90), 255], at);
  return PNG.sync.write(png);
}
