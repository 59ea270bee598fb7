import type {} from 'pdfkit';

/** What pdfkit 0.20 takes and its types do not name yet. */
declare global {
  namespace PDFKit {
    namespace Mixins {
      interface StructureElementOptions {
        /** Left, top, right, bottom on the page, in points. */
        bbox?: [number, number, number, number];
        placement?: 'Block' | 'Inline';
        scope?: 'Row' | 'Column' | 'Both';
      }
      interface PDFAttachmentOptions {
        relationship?: 'Data' | 'Source' | 'Alternative' | 'Supplement' | 'Unspecified';
      }
    }
    interface PDFDocument {
      initForm(): this;
      _root: { data: { AcroForm: { data: { Fields: unknown[]; SigFlags?: number; NeedAppearances?: boolean } } } };
    }
  }
}
