import type { Language } from '@breakbook/lab';
import PDFDocument from 'pdfkit';
import type {} from '../pdfkit-more.js';
import type { Paper } from './paper.js';
import { FONT_FILES } from './type.js';

export interface DocumentData {
  title: string;
  /** Who issues it. */
  creator: string;
  issuedAt: Date;
  software: string;
  /** First the document's own content, so that its numbers can be computed again from the file alone. */
  attached: Attached[];
  /** The file has a place for the signature of the lab. */
  signedBy?: string;
  /** Of the text; English where left out. */
  language?: Language;
}

export interface Attached {
  name: string;
  type: string;
  description: string;
  bytes: Uint8Array;
  /** What it is to the document (ISO 32000-2, 14.13). */
  relationship: 'Data' | 'Source' | 'Supplement';
}

/**
 * An empty tagged document, written to PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1) with its data attached.
 * Every date in it is the instant of issue, so that the same content gives the same bytes.
 */
export function openDocument(paper: Paper, data: DocumentData): PDFKit.PDFDocument {
  const { title, creator, issuedAt, software, attached, language = 'en' } = data;
  // The library copies the title into XML as it stands.
  if (/[<>&]/.test(title)) throw new Error(`The title of a document holds no "<", ">" or "&"; got "${title}".`);
  const doc = new PDFDocument({
    size: [paper.width, paper.height],
    margin: 0,
    autoFirstPage: false,
    bufferPages: true,
    pdfVersion: '1.7',
    subset: 'PDF/A-3a',
    tagged: true,
    lang: language,
    displayTitle: true,
    // Without a font of its own the library would start with Helvetica, which is not embedded.
    font: FONT_FILES.regular,
    info: { Title: title, Producer: software, Creator: software, CreationDate: issuedAt },
  });
  // The library numbers fonts as they are first asked for, and whether one is asked for to measure a text depends on what was
  // measured before. Those that nothing is written in do not come into the file.
  for (const file of Object.values(FONT_FILES)) doc.font(file);
  doc.font(FONT_FILES.regular);
  doc.appendXML(
    '<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"><pdfuaid:part>1</pdfuaid:part></rdf:Description>' +
      `<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:creator><rdf:Seq><rdf:li>${xml(creator)}</rdf:li></rdf:Seq></dc:creator></rdf:Description>`,
  );
  for (const { name, type, description, bytes, relationship } of attached)
    doc.file(Buffer.from(bytes), {
      name,
      type,
      description,
      relationship,
      creationDate: issuedAt,
      modifiedDate: issuedAt,
    });
  return doc;
}

/** All bytes of a document that is finished. */
export function closeDocument(doc: PDFKit.PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Buffer[] = [];
    doc.on('data', (chunk: Buffer) => chunks.push(chunk));
    doc.on('error', reject);
    doc.on('end', () => resolve(new Uint8Array(Buffer.concat(chunks))));
    doc.end();
  });
}

function xml(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
}
