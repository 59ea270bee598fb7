import { webcrypto, X509Certificate } from 'node:crypto';

const YEARS = 25;

/**
 * A new key that signs documents (ECDSA on P-256) with a certificate that it issues to itself: nobody vouches for it but
 * the lab, which hands it out. Long enough for everything that it signs to be kept.
 *
 * @param serial 1 to 20 bytes in hexadecimal (RFC 5280, 4.1.2.2)
 */
export async function newCertificate(
  holder: string,
  { from, serial }: { from: Date; serial: string },
): Promise<{ privateKey: string; certificate: string }> {
  // Loaded here only: keys are made once in years. The library finds its parts by what the first adds to classes.
  await import('reflect-metadata');
  const x509 = await import('@peculiar/x509');
  const algorithm = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' };
  const keys = await webcrypto.subtle.generateKey(algorithm, true, ['sign', 'verify']);
  const until = new Date(from);
  until.setUTCFullYear(until.getUTCFullYear() + YEARS);
  const made = await x509.X509CertificateGenerator.createSelfSigned(
    {
      serialNumber: serial,
      name: new x509.Name([{ CN: [{ utf8String: `${holder}: documents` }] }, { O: [{ utf8String: holder }] }]),
      notBefore: from,
      notAfter: until,
      signingAlgorithm: algorithm,
      keys,
      extensions: [
        new x509.BasicConstraintsExtension(false, undefined, true),
        new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature | x509.KeyUsageFlags.nonRepudiation, true),
        await x509.SubjectKeyIdentifierExtension.create(keys.publicKey, false, webcrypto as never),
      ],
    },
    webcrypto as never,
  );
  const pkcs8 = Buffer.from(await webcrypto.subtle.exportKey('pkcs8', keys.privateKey));
  const pem = (label: string, der: Buffer) =>
    `-----BEGIN ${label}-----\n${(der.toString('base64').match(/.{1,64}/g) ?? []).join('\n')}\n-----END ${label}-----\n`;
  return {
    privateKey: pem('PRIVATE KEY', pkcs8),
    certificate: new X509Certificate(Buffer.from(made.rawData)).toString(),
  };
}
