/** The files attached to a PDF, by their names. Throws where it cannot be read. */
export async function attachedFiles(file: Uint8Array): Promise<Map<string, Uint8Array>> {
  // Loaded here only, since few who need digests read files.
  const { decodePDFRawStream, PDFArray, PDFDict, PDFDocument, PDFHexString, PDFName, PDFRawStream, PDFString } =
    await import('pdf-lib');
  const pdf = await PDFDocument.load(file, { updateMetadata: false, throwOnInvalidObject: true });
  const listed = pdf.catalog.lookup(PDFName.of('AF'), PDFArray);
  const files = new Map<string, Uint8Array>();
  for (let n = 0; n < listed.size(); n += 1) {
    const one = listed.lookup(n, PDFDict);
    const name = one.lookup(PDFName.of('UF')) ?? one.lookup(PDFName.of('F'));
    const stream = one.lookup(PDFName.of('EF'), PDFDict).lookup(PDFName.of('F'));
    if (!(name instanceof PDFString || name instanceof PDFHexString) || !(stream instanceof PDFRawStream))
      throw new Error('An attached file has no name or no content.');
    const key = name.decodeText();
    if (files.has(key)) throw new Error(`Two attached files are called "${key}".`);
    files.set(key, decodePDFRawStream(stream).decode());
  }
  return files;
}
