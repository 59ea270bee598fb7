import { SIGNATURE_PLACE } from '@breakbook/evidence';
import type {} from '../pdfkit-more.js';

/**
 * A place in the file for the lab's signature: a signature field (ISO 32000-2, 12.7.5.5) without a picture, for what is
 * signed stands on the page. It is written with the rest, in one section, so that the signature can be of every byte.
 */
export function addSignaturePlace(
  doc: PDFKit.PDFDocument,
  root: PDFKit.PDFStructureElement,
  { by, at, alt }: { by: string; at: Date; alt: string },
): void {
  const value = doc.ref({ ...SIGNATURE_PLACE, M: at, Name: new String(by) });
  value.end('');
  const form = doc.struct('Form', { alt });
  root.add(form);
  const field = {
    Subtype: 'Widget',
    FT: 'Sig',
    T: new String('signature'),
    TU: new String(`Signature of ${by}`),
    V: value,
    F: PRINTED | LOCKED,
    P: doc.page.dictionary,
    structParent: form,
  };
  doc.annotate(0, 0, 0, 0, field as PDFKit.Mixins.AnnotationOption);
  form.end();
  doc.initForm();
  const { data } = doc._root.data.AcroForm;
  data.Fields.push(doc.page.annotations.at(-1));
  data.SigFlags = EXIST | APPEND_ONLY;
  // PDF/A: what is shown is what was written (ISO 19005-3, 6.4.1).
  delete data.NeedAppearances;
}

/** Flags of an annotation (ISO 32000-2, 12.5.3). */
const PRINTED = 1 << 2;
const LOCKED = 1 << 7;
/** Flags of signatures in a form (ISO 32000-2, 12.7.3). */
const EXIST = 1;
const APPEND_ONLY = 2;
