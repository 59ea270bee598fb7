import { deflateSync } from 'node:zlib';
import { Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { attachedFileIn } from './attached-file.js';

/** Made by ImageMagick 6.9.11: convert -size 8x6 gradient:red-blue -quality 60 -strip a.jpg, and -size 5x3 xc:teal PNG24:a.png. */
const JPEG = Buffer.from(
  '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAA0JCgsKCA0LCgsODg0PEyAVExISEyccHhcgLikxMC4pLSwzOko+MzZGNywtQFdBRkxOUlNSMj5aYVpQYEpRUk//2wBDAQ4ODhMREyYVFSZPNS01T09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT0//wAARCAAGAAgDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAb/xAAWEAEBAQAAAAAAAAAAAAAAAAAAAhT/xAAVAQEBAAAAAAAAAAAAAAAAAAAEBv/EABkRAAIDAQAAAAAAAAAAAAAAAAABBBRSFf/aAAwDAQACEQMRAD8AjtlgKznxcIZek7Z//9k=',
  'base64',
);
const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAUAAAADCAIAAADUVFKvAAAAFElEQVQI12NkaGhgQAJMDKgAnQ8ALkABBoH9zgUAAAAASUVORK5CYII=',
  'base64',
);
/**
 * Tables of tags after CIPA DC-008, in both byte orders. ImageMagick 6.9.11 reads them in a JPEG (identify -format
 * %[EXIF:DateTimeOriginal]) as 2031:03:04 09:12:44, +01:00, and as DateTime 2031:03:05 00:00:00.
 */
const EXIF = {
  little:
    'SUkqAAgAAAACADIBAgAUAAAARAAAAGmHBAABAAAAJgAAAAAAAAACAAOQAgAUAAAAWAAAABGQAgAHAAAAbAAAAAAAAAAyMDMxOjAzOjA1IDAwOjAwOjAwADIwMzE6MDM6MDQgMDk6MTI6NDQAKzAxOjAwAA==',
  big: 'TU0AKgAAAAgAAgEyAAIAAAAUAAAARIdpAAQAAAABAAAAJgAAAAAAApADAAIAAAAUAAAAWJARAAIAAAAHAAAAbAAAAAAyMDMxOjAzOjA1IDAwOjAwOjAwADIwMzE6MDM6MDQgMDk6MTI6NDQAKzAxOjAwAA==',
};
const TAKEN = { local: '2031-03-04T09:12:44', zone: '+01:00', said: 'EXIF DateTimeOriginal' };

function length(bytes: number, value: number): Buffer {
  const field = Buffer.alloc(bytes);
  field.writeUIntBE(value, 0, bytes);
  return field;
}

function jpegWith(tiff: Buffer): Buffer {
  const part = Buffer.concat([Buffer.from('Exif\0\0'), tiff]);
  return Buffer.concat([
    JPEG.subarray(0, 2),
    Buffer.of(0xff, 0xe1),
    length(2, part.length + 2),
    part,
    JPEG.subarray(2),
  ]);
}

function pngWith(tiff: Buffer): Buffer {
  const part = Buffer.concat([length(4, tiff.length), Buffer.from('eXIf'), tiff, Buffer.alloc(4)]);
  return Buffer.concat([PNG.subarray(0, 33), part, PNG.subarray(33)]);
}

/** A box as ISO/IEC 14496-12, 4.2, has it: its size, its kind, its content. */
function box(kind: string, content: Buffer | string): Buffer {
  const inner = Buffer.from(content as string);
  return Buffer.concat([length(4, inner.length + 8), Buffer.from(kind, 'latin1'), inner]);
}

/** Seconds from 1904-01-01 to 2031-03-04T08:12:44Z: 127 years with 32 leap days, 31 + 28 + 3 days, and 29564 s. */
const SECONDS = (127 * 365 + 32 + 62) * 86_400 + 29_564;
const header = (seconds: number) => box('mvhd', Buffer.concat([Buffer.alloc(4), length(4, seconds), Buffer.alloc(92)]));
const long = Buffer.alloc(112);
long[0] = 1;
long.writeBigUInt64BE(BigInt(SECONDS), 4);

const movie = (brand: string, mvhd = header(SECONDS)) =>
  Buffer.concat([box('ftyp', `${brand}\0\0\0\0isom`), box('moov', mvhd), box('mdat', 'pictures')]);

const pdf = (inside: string | Buffer) =>
  Buffer.concat([
    Buffer.from('%PDF-1.7\n1 0 obj\n<< /Type /Catalog /Pages 2 0 R >>\nendobj\n'),
    Buffer.from(inside as string),
    Buffer.from('\ntrailer << /Root 1 0 R >>\nstartxref\n9\n%%EOF\n'),
  ]);
const packed = (names: string, dictionary = '/Type /ObjStm /Filter /FlateDecode') => {
  const content = deflateSync(names);
  return Buffer.concat([
    Buffer.from(`3 0 obj\n<< ${dictionary} /Length ${content.length} >>\nstream\n`),
    content,
    Buffer.from('\nendstream\nendobj'),
  ]);
};

describe('what a file says of when it was recorded', () => {
  it.each(Object.entries(EXIF))('is read from EXIF, %s end first, of a JPEG and of a PNG', (_, tiff) => {
    for (const photo of [jpegWith(Buffer.from(tiff, 'base64')), pngWith(Buffer.from(tiff, 'base64'))])
      expect(attachedFileIn(photo).recorded).toEqual(TAKEN);
  });

  it('is read from the header of a movie, of 32 and of 64 bits', () => {
    const recorded = { local: '2031-03-04T08:12:44', zone: 'Z', said: 'movie header' };
    expect(attachedFileIn(movie('isom'))).toEqual({ mediaType: 'video/mp4', width: null, height: null, recorded });
    expect(attachedFileIn(movie('qt  '))).toMatchObject({ mediaType: 'video/quicktime', recorded });
    expect(attachedFileIn(movie('mp42', box('mvhd', long)))).toMatchObject({ recorded });
  });

  it('is nothing where the file says nothing, or a moment that never was', () => {
    expect(attachedFileIn(JPEG).recorded).toBeNull();
    expect(attachedFileIn(PNG).recorded).toBeNull();
    expect(attachedFileIn(movie('isom', header(0))).recorded).toBeNull();
    const never = Buffer.from(
      Buffer.from(EXIF.little, 'base64').toString('latin1').replace('03:04', '02:30'),
      'latin1',
    );
    expect(attachedFileIn(jpegWith(never)).recorded).toEqual({ local: '2031-03-05T00:00:00', said: 'EXIF DateTime' });
  });

  it('brings nothing down, wherever the table of tags leads', () => {
    const tiff = Buffer.from(EXIF.little, 'base64');
    for (let at = 0; at < tiff.length; at++)
      for (const value of [0x00, 0x7f, 0xff]) {
        const altered = Buffer.from(tiff);
        altered[at] = value;
        expect(attachedFileIn(jpegWith(altered)).mediaType).toBe('image/jpeg');
        expect(attachedFileIn(jpegWith(tiff.subarray(0, at))).mediaType).toBe('image/jpeg');
      }
  });
});

describe('a file that could act, or is two files', () => {
  it.each([
    ['JavaScript', pdf('<< /S /JavaScript /JS (app.alert) >>'), 'JavaScript'],
    ['a name with its letters escaped', pdf('<< /S /J#61vaScript >>'), 'JavaScript'],
    ['a script of a short name', pdf('<< /JS (x) >>'), 'JS'],
    ['an action as it opens', pdf('<< /OpenAction 3 0 R >>'), 'OpenAction'],
    ['an action of a page', pdf('<< /AA << >> >>'), 'AA'],
    ['a program to start', pdf('<< /S /Launch >>'), 'Launch'],
    ['a file in it', pdf('<< /Type /EmbeddedFile >>'), 'EmbeddedFile'],
    ['a form that sends itself', pdf('<< /S /SubmitForm >>'), 'SubmitForm'],
    ['a lock', pdf('<< /Encrypt 4 0 R >>'), 'Encrypt'],
    ['a script among packed objects', pdf(packed('5 0 << /S /JavaScript >>')), 'JavaScript'],
    ['objects packed in another way', pdf(packed('x', '/Type /ObjStm /Filter /LZWDecode')), 'cannot be looked into'],
    [
      'objects that cannot be unpacked',
      pdf('3 0 obj\n<< /Type /ObjStm /Filter /FlateDecode >>\nstream\nno\nendstream'),
      'cannot be looked into',
    ],
    ['a JPEG with a page behind it', Buffer.concat([JPEG, Buffer.from('<html><script>')]), 'another file'],
    [
      'a JPEG with an archive behind it',
      Buffer.concat([JPEG, Buffer.from('PK\u0003\u0004 .. PK\u0005\u0006'), Buffer.alloc(18)]),
      'another file',
    ],
    ['an SVG', Buffer.from('<svg onload="alert(1)"/>'), 'SVG, HTML or XML'],
    ['a page', Buffer.from('<!doctype html><script>'), 'SVG, HTML or XML'],
    ['a picture that begins as a movie', movie('heic'), 'no PNG, JPEG, MP4'],
  ])('%s is refused', (_, bytes, said) => {
    expect(refusalOf(bytes)).toMatchObject({ code: 'file.type-mismatch', message: expect.stringContaining(said) });
  });

  it.each([
    ['a movie cut short', movie('isom').subarray(0, -3)],
    ['a movie with a page behind it', Buffer.concat([movie('isom'), Buffer.from('<html>...</html>')])],
    ['a movie with a strange part', Buffer.concat([movie('isom'), box('html', '<script>')])],
    ['a movie without header', Buffer.concat([box('ftyp', 'isom\0\0\0\0'), box('mdat', 'pictures')])],
    ['a PDF cut short', pdf('').subarray(0, -8)],
    ['a PDF with an archive behind it', Buffer.concat([pdf(''), Buffer.from('PK\u0003\u0004')])],
  ])('%s is refused as not whole', (_, bytes) => {
    expect(refusalOf(bytes)).toMatchObject({ code: 'file.truncated' });
  });

  it('is not what a quiet PDF is, with packed objects or without', () => {
    const nothing = { mediaType: 'application/pdf', width: null, height: null, recorded: null };
    expect(attachedFileIn(pdf(''))).toEqual(nothing);
    expect(attachedFileIn(pdf(packed('5 0 << /Type /Page >>')))).toEqual(nothing);
  });

  it('a stream that unpacks without end is let be', () => {
    const bomb = pdf(packed('\0'.repeat(20 * 1024 * 1024), '/Filter /FlateDecode'));
    const began = performance.now();
    expect(attachedFileIn(bomb).mediaType).toBe('application/pdf');
    expect(performance.now() - began).toBeLessThan(5000);
  });
});

function refusalOf(bytes: Buffer): Refusal {
  try {
    attachedFileIn(bytes);
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('It was taken.');
}
