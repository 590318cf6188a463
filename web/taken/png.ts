/** A picture of vectors as a bitmap, fine enough for print. */

/** Pixels of the bitmap in one of the picture. */
const fineness = 2;

export function svgText(picture: SVGSVGElement): string {
  return new XMLSerializer().serializeToString(picture);
}

export async function pngOf(picture: SVGSVGElement): Promise<Blob> {
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svgText(picture))}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = fineness * image.width;
  canvas.height = fineness * image.height;
  canvas.getContext('2d')!.drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((done, failed) => {
    canvas.toBlob((blob) => {
      if (blob === null) failed(new Error('the browser made no PNG of the picture'));
      else done(blob);
    }, 'image/png');
  });
}
