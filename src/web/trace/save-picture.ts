function save(blob: Blob, name: string): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // Not at once: some browsers read it only after the click is over.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

const svgBlob = (svg: string) => new Blob([svg], { type: 'image/svg+xml' });

export function saveSvg(svg: string, name: string): void {
  save(svgBlob(svg), `${name}.svg`);
}

/** At `density` dots to the px. A promise of whether it could be made. */
export async function savePng(svg: string, name: string, density = 3): Promise<boolean> {
  const address = URL.createObjectURL(svgBlob(svg));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = image.naturalWidth * density;
    canvas.height = image.naturalHeight * density;
    const context = canvas.getContext('2d');
    if (context === null) return false;
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
    if (blob === null) return false;
    save(blob, `${name}.png`);
    return true;
  } catch {
    return false;
  } finally {
    URL.revokeObjectURL(address);
  }
}

/** The name of a sample as the name of a file. */
export function fileNameOf(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/[^\w-]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase();
  return plain === '' ? 'trace' : plain.slice(0, 80);
}
