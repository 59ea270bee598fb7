/** Made by ImageMagick 6.9.11: convert -size 5x3 xc:teal PNG24:a.png. */
const PNG = 'iVBORw0KGgoAAAANSUhEUgAAAAUAAAADCAIAAADUVFKvAAAAFElEQVQI12NkaGhgQAJMDKgAnQ8ALkABBoH9zgUAAAAASUVORK5CYII=';

/** A photo as it is chosen from a folder. */
export function aPhoto(name: string): { name: string; mimeType: string; buffer: Buffer } {
  return { name, mimeType: 'image/png', buffer: Buffer.from(PNG, 'base64') };
}
