import type { X509Certificate } from 'node:crypto';
import asn1js from 'asn1js';

/** Who a certificate is of, in words, and its issuer and serial number as they stand in it, in DER. */
export function certificateNames(certificate: X509Certificate): {
  subject: string;
  issuer: Uint8Array;
  serial: Uint8Array;
} {
  const [toBeSigned] = elements(asn1js.fromBER(certificate.raw).result);
  const fields = elements(toBeSigned);
  // Certificates of version 1 have no version before the serial number (RFC 5280, 4.1).
  const from = fields[0]?.idBlock.tagClass === 3 ? 1 : 0;
  const [serial, , issuer] = fields.slice(from);
  if (!serial || !issuer) throw new Error('A certificate has no serial number or issuer.');
  return {
    subject: commonName(certificate.subject),
    issuer: new Uint8Array(issuer.valueBeforeDecodeView),
    serial: new Uint8Array(serial.valueBeforeDecodeView),
  };
}

function commonName(subject: string): string {
  return /^CN=(.*)$/m.exec(subject)?.[1] ?? subject.replaceAll('\n', ', ');
}

function elements(block: asn1js.BaseBlock | undefined): asn1js.BaseBlock[] {
  const value = (block as asn1js.Sequence | undefined)?.valueBlock.value;
  if (!Array.isArray(value)) throw new Error('What stands in place of a certificate is none.');
  return value;
}
