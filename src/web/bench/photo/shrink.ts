/** Above this a photo is made smaller: a phone's camera writes four times as much. */
const LARGE_bytes = 2 * 1024 * 1024;
const LONGEST_SIDE_px = 2000;
const QUALITY = 0.85;

export interface Photo {
  readonly bytes: ArrayBuffer;
  readonly mediaType: string;
}

/** The sides of a picture that fits, in its own proportions; never larger than it was. */
export function fitted(width: number, height: number, longest = LONGEST_SIDE_px) {
  const scale = Math.min(1, longest / Math.max(width, height));
  return { width: Math.round(width * scale), height: Math.round(height * scale) };
}

/** A photo small enough to send over a weak network. One that cannot be drawn stays as it is. */
export async function photoOf(file: Blob): Promise<Photo> {
  const smaller = file.size > LARGE_bytes ? await shrunk(file).catch(() => undefined) : undefined;
  const kept = smaller !== undefined && smaller.size < file.size ? smaller : file;
  const mediaType = kept.type === '' ? 'application/octet-stream' : kept.type;
  return { bytes: await kept.arrayBuffer(), mediaType };
}

async function shrunk(file: Blob): Promise<Blob | undefined> {
  // Turned as the camera was held.
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  const { width, height } = fitted(picture.width, picture.height);
  const canvas = Object.assign(document.createElement('canvas'), { width, height });
  canvas.getContext('2d')?.drawImage(picture, 0, 0, width, height);
  picture.close();
  return new Promise((done) => {
    canvas.toBlob((blob) => done(blob ?? undefined), 'image/jpeg', QUALITY);
  });
}
