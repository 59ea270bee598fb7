import { createPublicKey, type KeyObject, sign, verify, X509Certificate } from 'node:crypto';
import asn1js from 'asn1js';
import { sha256 } from '../digest.js';
import { certificateNames } from './certificate-names.js';
import { ecdsaFromDer, ecdsaToDer, isLowS, withLowS } from './ecdsa-value.js';

/**
 * A detached CMS signature (RFC 5652) of the form that PAdES baseline B-B asks for (ETSI EN 319 142-1, 6.3): SHA-256,
 * one signer, three signed attributes (content type, message digest, signing-certificate-v2 of RFC 5035), no signing
 * time among them, nothing unsigned. Every certificate inside is named by its digest in the signed attributes.
 */
export interface Cms {
  /** SHA-256 of what was signed. */
  digest: string;
  /** The signer's certificate first, then what it was issued by. */
  certificates: X509Certificate[];
  /** Of the signed attributes, as the algorithm of the key writes it. */
  signature: Uint8Array;
}

/** A private key with its certificate, and the certificates that one was issued by. */
export interface Signer {
  privateKey: KeyObject;
  certificates: X509Certificate[];
}

const OID = {
  data: '1.2.840.113549.1.7.1',
  signedData: '1.2.840.113549.1.7.2',
  contentType: '1.2.840.113549.1.9.3',
  messageDigest: '1.2.840.113549.1.9.4',
  signingCertificateV2: '1.2.840.113549.1.9.16.2.47',
  sha256: '2.16.840.1.101.3.4.2.1',
  ecdsaWithSha256: '1.2.840.10045.4.3.2',
  sha256WithRsa: '1.2.840.113549.1.1.11',
};

/** The signature of this SHA-256 digest, in DER. */
export function signCms(digest: string, { privateKey, certificates }: Signer): Uint8Array {
  const [own] = certificates;
  if (!own?.checkPrivateKey(privateKey)) throw new Error('The first certificate is not that of the private key.');
  const attributes = bytesOf(signedAttributes(digest, certificates));
  const signature =
    algorithmOf(privateKey) === 'ecdsa'
      ? ecdsaToDer(withLowS(sign('sha256', attributes, { key: privateKey, dsaEncoding: 'ieee-p1363' })))
      : new Uint8Array(sign('sha256', attributes, privateKey));
  return writeCms({ digest, certificates, signature });
}

/**
 * Takes a signature apart that `signCms` wrote. Throws where another byte would do: what is read is written again and
 * must come out the same, so that each bit of it counts.
 */
export function readCms(der: Uint8Array): Cms {
  const cms = parsed(der);
  if (!Buffer.from(writeCms(cms)).equals(der))
    throw new Error('The signature is not written in the one form that a signature of this kind has.');
  return cms;
}

/** Did the holder of the first certificate's key sign this digest? Throws where not. */
export function checkCms({ digest, certificates, signature }: Cms, of: string): X509Certificate {
  const [own] = certificates;
  if (!own) throw new Error('The signature has no certificate.');
  if (digest !== of) throw new Error(`The bytes come to the digest ${of}, and ${digest} was signed.`);
  const attributes = bytesOf(signedAttributes(digest, certificates));
  const publicKey = createPublicKey(own.publicKey.export({ type: 'spki', format: 'pem' }));
  const good =
    algorithmOf(publicKey) === 'ecdsa'
      ? isLowS(ecdsaFromDer(signature)) &&
        verify('sha256', attributes, { key: publicKey, dsaEncoding: 'ieee-p1363' }, ecdsaFromDer(signature))
      : verify('sha256', attributes, publicKey, signature);
  if (!good) throw new Error(`The signature is not one by the key of ${certificateNames(own).subject}.`);
  return own;
}

function algorithmOf(key: KeyObject): 'ecdsa' | 'rsa' {
  if (key.asymmetricKeyType === 'ec' && key.asymmetricKeyDetails?.namedCurve === 'prime256v1') return 'ecdsa';
  if (key.asymmetricKeyType === 'rsa' && (key.asymmetricKeyDetails?.modulusLength ?? 0) >= 2048) return 'rsa';
  throw new Error(
    `Documents are signed with ECDSA on P-256 or with RSA of 2048 bits or more; this key is ${key.asymmetricKeyType}.`,
  );
}

function writeCms({ digest, certificates, signature }: Cms): Uint8Array {
  const [own] = certificates;
  if (!own) throw new Error('The signature has no certificate.');
  const { issuer, serial } = certificateNames(own);
  const signerInfo = sequence(
    new asn1js.Integer({ value: 1 }),
    sequence(raw(issuer), raw(serial)),
    sequence(oid(OID.sha256)),
    // IMPLICIT: the same content under another tag.
    new asn1js.Constructed({ idBlock: context(0), value: attributesOf(digest, certificates) }),
    algorithmOf(own.publicKey) === 'ecdsa'
      ? sequence(oid(OID.ecdsaWithSha256))
      : sequence(oid(OID.sha256WithRsa), new asn1js.Null()),
    octets(signature),
  );
  const signedData = sequence(
    new asn1js.Integer({ value: 1 }),
    new asn1js.Set({ value: [sequence(oid(OID.sha256))] }),
    sequence(oid(OID.data)),
    new asn1js.Constructed({
      idBlock: context(0),
      value: inOrder(certificates.map(({ raw: der }) => raw(der))),
    }),
    new asn1js.Set({ value: [signerInfo] }),
  );
  return bytesOf(sequence(oid(OID.signedData), new asn1js.Constructed({ idBlock: context(0), value: [signedData] })));
}

/** As they are signed: a SET OF (RFC 5652, 5.4). */
function signedAttributes(digest: string, certificates: readonly X509Certificate[]): asn1js.Set {
  return new asn1js.Set({ value: attributesOf(digest, certificates) });
}

function attributesOf(digest: string, certificates: readonly X509Certificate[]): asn1js.BaseBlock[] {
  const named = certificates.map((one) => sequence(octets(Buffer.from(sha256(one.raw), 'hex'))));
  return inOrder([
    attribute(OID.contentType, oid(OID.data)),
    attribute(OID.messageDigest, octets(Buffer.from(digest, 'hex'))),
    attribute(OID.signingCertificateV2, sequence(sequence(...named))),
  ]);
}

function attribute(type: string, value: asn1js.BaseBlock): asn1js.Sequence {
  return sequence(oid(type), new asn1js.Set({ value: [value] }));
}

/** A SET OF in DER holds its elements in the order of their bytes (X.690, 11.6). */
function inOrder(elements: asn1js.BaseBlock[]): asn1js.BaseBlock[] {
  return elements.toSorted((a, b) => Buffer.compare(bytesOf(a), bytesOf(b)));
}

function parsed(der: Uint8Array): Cms {
  const info = asn1js.fromBER(der);
  const [, explicit] = members(info.result);
  const [signedData] = members(explicit);
  const [, , , certificates, signerInfos] = members(signedData);
  const [signerInfo] = members(signerInfos);
  const [, , , attributes, , signature] = members(signerInfo);
  const values = members(attributes).map((one) => members(members(one)[1])[0]);
  const digest = values.find((one) => one instanceof asn1js.OctetString);
  const named = members(members(values.find((one) => one instanceof asn1js.Sequence))[0]).map((one) =>
    Buffer.from(octetsOf(members(one)[0])).toString('hex'),
  );
  const held = members(certificates).map((one) => new X509Certificate(bytesOf(one)));
  return {
    digest: Buffer.from(octetsOf(digest)).toString('hex'),
    // In the order of their digests in the attributes, which begins with the signer's.
    certificates: named.map((one) => {
      const found = held.find(({ raw: bytes }) => sha256(bytes) === one);
      if (!found) throw new Error('The signature names a certificate that is not in it.');
      return found;
    }),
    signature: octetsOf(signature),
  };
}

function members(block: unknown): asn1js.BaseBlock[] {
  const value = (block as { valueBlock?: { value?: unknown } } | undefined)?.valueBlock?.value;
  if (!Array.isArray(value)) throw new Error('What stands in place of a signature is none.');
  return value as asn1js.BaseBlock[];
}

function octetsOf(block: unknown): Uint8Array {
  if (!(block instanceof asn1js.OctetString)) throw new Error('What stands in place of a signature is none.');
  return block.valueBlock.valueHexView;
}

function sequence(...value: asn1js.BaseBlock[]): asn1js.Sequence {
  return new asn1js.Sequence({ value });
}

function oid(value: string): asn1js.ObjectIdentifier {
  return new asn1js.ObjectIdentifier({ value });
}

function octets(valueHex: Uint8Array): asn1js.OctetString {
  return new asn1js.OctetString({ valueHex: Uint8Array.from(valueHex) });
}

/** An element that is there in DER already. */
function raw(der: Uint8Array): asn1js.BaseBlock {
  const { result } = asn1js.fromBER(der);
  if (!Buffer.from(bytesOf(result)).equals(der)) throw new Error('A certificate is not written in DER.');
  return result;
}

function context(tagNumber: number): { tagClass: 3; tagNumber: number } {
  return { tagClass: 3, tagNumber };
}

function bytesOf(block: asn1js.BaseBlock): Uint8Array {
  return new Uint8Array(block.toBER());
}
