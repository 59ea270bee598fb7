export { attachedFiles } from './attached-files.js';
export { certificateNames } from './certificate-names.js';
export { type Cms, checkCms, readCms, type Signer, signCms } from './cms.js';
export { checkDetached, type DataKey, dataKeyOf, kidOf, signDetached } from './detached-jws.js';
export { type DocumentFiles, documentFiles, documentStem } from './document-files.js';
export {
  CONTENT_TABLE,
  checkDocumentRecord,
  type DocumentRecord,
  formatDocumentRecord,
  parseDocumentRecord,
} from './document-record.js';
export { KeyList, keysOfCertificate, SigningKeys, whyNotGood } from './key-list.js';
export { fillSignature, readSignature, SIGNATURE_PLACE, SIGNATURE_ROOM, withoutSignature } from './pdf-signature.js';
export {
  DOCUMENT_QUESTIONS,
  type Finding,
  type Known,
  type VerifiedDocument,
  verifyDocument,
} from './verify-document.js';
