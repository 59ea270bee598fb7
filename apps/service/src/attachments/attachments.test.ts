import { createHash } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { aLot } from '../../../../tests/lab-fixture.ts';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.ts';
import { pictureIn } from './picture.ts';
import { THUMBNAIL_SIDE, thumbnailOf } from './thumbnail.ts';

// Made by ImageMagick 6.9.11: convert -size 8x6 gradient:red-blue -quality 60 -strip a.jpg, the same with
// -interlace Plane, and convert -size 5x3 xc:teal PNG24:a.png.
const BASELINE = Buffer.from(
  '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAA0JCgsKCA0LCgsODg0PEyAVExISEyccHhcgLikxMC4pLSwzOko+MzZGNywtQFdBRkxOUlNSMj5aYVpQYEpRUk//2wBDAQ4ODhMREyYVFSZPNS01T09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT0//wAARCAAGAAgDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAb/xAAWEAEBAQAAAAAAAAAAAAAAAAAAAhT/xAAVAQEBAAAAAAAAAAAAAAAAAAAEBv/EABkRAAIDAQAAAAAAAAAAAAAAAAABBBRSFf/aAAwDAQACEQMRAD8AjtlgKznxcIZek7Z//9k=',
  'base64',
);
const PROGRESSIVE = Buffer.from(
  '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAA0JCgsKCA0LCgsODg0PEyAVExISEyccHhcgLikxMC4pLSwzOko+MzZGNywtQFdBRkxOUlNSMj5aYVpQYEpRUk//2wBDAQ4ODhMREyYVFSZPNS01T09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT0//wgARCAAGAAgDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAX/xAAVAQEBAAAAAAAAAAAAAAAAAAADBf/aAAwDAQACEAMQAAABjCs3/8QAFRABAQAAAAAAAAAAAAAAAAAAABL/2gAIAQEAAQUCt//EABcRAAMBAAAAAAAAAAAAAAAAAAADE1H/2gAIAQMBAT8BuzT/xAAXEQADAQAAAAAAAAAAAAAAAAAAAxRR/9oACAECAQE/AZ1Yf//EABQQAQAAAAAAAAAAAAAAAAAAAAD/2gAIAQEABj8Cf//EABUQAQEAAAAAAAAAAAAAAAAAAAAR/9oACAEBAAE/Iaf/2gAMAwEAAgADAAAAEPP/xAAVEQEBAAAAAAAAAAAAAAAAAAAAYf/aAAgBAwEBPxCt/8QAFREBAQAAAAAAAAAAAAAAAAAAAGH/2gAIAQIBAT8Qhf/EABQQAQAAAAAAAAAAAAAAAAAAAAD/2gAIAQEAAT8QP//Z',
  'base64',
);
const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAUAAAADCAIAAADUVFKvAAAAFElEQVQI12NkaGhgQAJMDKgAnQ8ALkABBoH9zgUAAAAASUVORK5CYII=',
  'base64',
);

let service: TestService;
let operator: SignedInCaller;
beforeAll(async () => {
  service = await startTestService();
  operator = await service.signIn('operator', ['record']);
  await aLot(service.records, service.lab, ['401', '402'], 'D42-PP1');
}, 60_000);
afterAll(() => service.close());

const about = {
  specimen: '401',
  caption: 'Crack at 90\u00b0 from the valve <b>not bold</b>',
  takenBy: 'operator',
  device: 'Bench camera 2',
  takenAt: '2026-09-21T09:40:00+02:00',
};

function attach(
  bytes: Uint8Array<ArrayBuffer> | undefined,
  change: Record<string, string | undefined> = {},
  type = 'image/jpeg',
) {
  const said = Object.entries({ ...about, ...change }).filter((one): one is [string, string] => one[1] !== undefined);
  return operator.ask('POST', `/api/attachments?${new URLSearchParams(said)}`, {
    ...(bytes ? { body: bytes } : {}),
    headers: { 'content-type': type },
  });
}

describe('a photo', () => {
  it('is kept byte by byte, with who took it, when, with what, and comes back as nothing but a picture', async () => {
    const { status, body } = await attach(BASELINE);
    const { specimen: _, ...content } = about;
    expect(status, JSON.stringify(body)).toBe(201);
    expect(body).toEqual({
      number: 1,
      of: { kind: 'specimen', key: '401' },
      mediaType: 'image/jpeg',
      width: 8,
      height: 6,
      bytes: BASELINE.length,
      sha256: createHash('sha256').update(BASELINE).digest('hex'),
      version: 1,
      at: expect.any(String),
      by: 'operator',
      content,
    });
    const response = await operator.fetch('/api/attachments/1/photo', { headers: { accept: 'image/avif,image/*' } });
    expect(Buffer.from(await response.arrayBuffer()).equals(BASELINE)).toBe(true);
    expect(Object.fromEntries(response.headers)).toMatchObject({
      'content-type': 'image/jpeg',
      'x-content-type-options': 'nosniff',
      'content-security-policy': expect.stringContaining("default-src 'none'"),
      'content-disposition': 'inline; filename="photo-1.jpg"',
      'cache-control': 'private, max-age=31536000, immutable',
    });
    expect((await operator.fetch('/api/attachments/1/photo', { headers: { accept: 'image/webp' } })).status).toBe(406);
  });

  it.each([
    ['a progressive JPEG', PROGRESSIVE, 'image/jpeg', { mediaType: 'image/jpeg', width: 8, height: 6 }],
    ['a PNG', PNG, 'image/png', { mediaType: 'image/png', width: 5, height: 3 }],
    ['a PNG that is called a JPEG', Buffer.concat([PNG]), 'image/jpeg', { mediaType: 'image/png' }],
    // As telephones write them: a second picture after the end of the first.
    ['a JPEG with another behind it', Buffer.concat([BASELINE, PROGRESSIVE]), 'image/jpeg', { width: 8, height: 6 }],
  ])('may be %s; what it is is told from its bytes', async (what, bytes, type, expected) => {
    const specimen = what.startsWith('a PNG that') ? '402' : '401';
    expect(await attach(Buffer.from(bytes), { specimen }, type)).toMatchObject({ status: 201, body: expected });
  });

  it('belongs to one thing once; to another as well', async () => {
    expect(await attach(BASELINE)).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', detail: expect.stringContaining('number 1') },
    });
    expect(await attach(BASELINE, { specimen: undefined, lot: 'D42-PP1' })).toMatchObject({
      status: 201,
      body: { of: { kind: 'lot', key: 'D42-PP1' } },
    });
    const { body } = await operator.ask('GET', '/api/attachments?lot=D42-PP1');
    expect(body).toMatchObject({ items: [{ of: { kind: 'lot', key: 'D42-PP1' } }], next: null });
    expect((await operator.ask('GET', '/api/attachments?specimen=402')).body.items).toHaveLength(1);
  });

  it('is described otherwise by a version; its bytes stay', async () => {
    const { specimen: _, ...content } = { ...about, caption: 'Crack at the valve' };
    const address = '/api/attachments/1';
    expect((await operator.ask('GET', address)).headers.get('etag')).toBe('"1"');
    const body = { reason: 'the wrong place', content };
    expect(await operator.ask('PUT', address, { body, headers: { 'if-match': '"1"' } })).toMatchObject({
      status: 200,
      body: { version: 2, reason: 'the wrong place', content, bytes: BASELINE.length },
    });
  });
});

describe('a video', () => {
  /** Boxes as ISO/IEC 14496-12, 4.2 and 8.2.2, has them; its header says 3 000 000 000 s since 1904. */
  const VIDEO = Buffer.from(
    '0000001066747970' +
      '69736f6d00000000' +
      '0000007c6d6f6f76' +
      '000000746d766864' +
      '00000000b2d05e00' +
      '00'.repeat(100) +
      '000000086d646174',
    'hex',
  );

  it('is kept with its place on the clock of the record, and handed out as a file that runs nothing', async () => {
    const { status, body } = await attach(VIDEO, { triggerOffset: '-1.25' }, 'video/mp4');
    expect(status, JSON.stringify(body)).toBe(201);
    expect(body).toMatchObject({
      mediaType: 'video/mp4',
      // date -u -d '1904-01-01 UTC + 3000000000 seconds', GNU coreutils 9.1.
      recorded: { local: '1999-01-24T05:20:00', zone: 'Z', said: 'movie header' },
      content: { triggerOffset: -1.25 },
    });
    expect(body).not.toHaveProperty('width');
    const response = await operator.fetch(`/api/attachments/${body.number}/file`);
    expect(Buffer.from(await response.arrayBuffer()).equals(VIDEO)).toBe(true);
    expect(Object.fromEntries(response.headers)).toMatchObject({
      'content-type': 'video/mp4',
      'x-content-type-options': 'nosniff',
      'content-security-policy': "sandbox; default-src 'none'",
      'content-disposition': `attachment; filename="video-${body.number}.mp4"`,
    });
    expect((await operator.ask('GET', `/api/attachments/${body.number}/photo`)).body.code).toBe('request.not-found');
  });

  it.each(['1e3', 'soon', '--1', '100000'])('that begins at %j of the record is refused', async (triggerOffset) => {
    expect(await attach(VIDEO, { specimen: '402', triggerOffset }, 'video/mp4')).toMatchObject({
      status: 422,
      body: { code: 'query.invalid', parameter: 'triggerOffset' },
    });
  });
});

describe('what is no photo of this lab is refused', () => {
  const cut = (bytes: Buffer, less: number) => Buffer.from(bytes.subarray(0, bytes.length - less));
  const wide = Buffer.from(PNG);
  wide.writeUInt32BE(100_000, 16);
  wide.writeUInt32BE(100_000, 20);

  it.each([
    ['no bytes', undefined, 400, 'body.empty'],
    ['empty', Buffer.alloc(0), 400, 'body.empty'],
    ['an SVG, which can hold a program', Buffer.from('<svg onload="alert(1)"/>'), 415, 'file.type-mismatch'],
    ['a PDF that ends nowhere', Buffer.from('%PDF-1.7'), 422, 'file.truncated'],
    ['a PDF that acts', Buffer.from('%PDF-1.7 /S /JavaScript %%EOF'), 415, 'file.type-mismatch'],
    ['a GIF', Buffer.from('GIF89a............'), 415, 'file.type-mismatch'],
    ['gzip', Buffer.from(gzipSync(PNG)), 415, 'file.type-mismatch'],
    ['the first bytes of a PNG only', Buffer.from(PNG.subarray(0, 8)), 415, 'file.type-mismatch'],
    ['the first bytes of a JPEG only', Buffer.from([0xff, 0xd8, 0xff, 0xe0]), 422, 'file.truncated'],
    ['a PNG cut short', cut(PNG, 5), 422, 'file.truncated'],
    ['a JPEG cut short', cut(BASELINE, 2), 422, 'file.truncated'],
    ['a PNG with a web page behind it', Buffer.concat([PNG, Buffer.from('<script>')]), 422, 'file.truncated'],
    ['more pixels than a screen can take', wide, 413, 'file.too-large'],
    ['more bytes than a photo has', Buffer.alloc(16 * 1024 * 1024 + 1, 0xff), 413, 'body.too-large'],
  ])('%s', async (_, bytes, status, code) => {
    expect(await attach(bytes, { specimen: '402' })).toMatchObject({ status, body: { code } });
  });

  it.each([
    ['a specimen that is not there', { specimen: '999' }, 422, 'query.invalid', { parameter: 'specimen' }],
    ['nothing it belongs to', { specimen: undefined }, 422, 'query.invalid', { parameter: 'specimen' }],
    ['two things it belongs to', { lot: 'D42-PP1' }, 422, 'query.invalid', { parameter: 'specimen' }],
    ['no caption', { caption: undefined }, 422, 'query.invalid', { parameter: 'caption' }],
    ['a caption with U+0000', { caption: 'a\u0000b' }, 422, 'query.invalid', { parameter: 'caption' }],
    ['a time without zone', { takenAt: '2026-09-21T09:40:00' }, 422, 'query.invalid', { parameter: 'takenAt' }],
    ['a time to come', { takenAt: '2999-01-01T00:00:00Z' }, 422, 'query.invalid', { parameter: 'takenAt' }],
    ['a person who is not there', { takenBy: 'nobody' }, 422, 'query.invalid', { parameter: 'takenBy' }],
  ])('%s', async (_, change, status, code, more) => {
    expect(await attach(Buffer.from(PNG), change)).toMatchObject({ status, body: { code, ...more } });
  });

  it('sent as something else', async () => {
    for (const type of ['application/json', 'text/html', 'multipart/form-data; boundary=x'])
      expect(await attach(Buffer.from('{}'), {}, type)).toMatchObject({
        status: 415,
        body: { code: 'body.media-type' },
      });
  });

  it('by a number that is none', async () => {
    for (const number of ['0', '99', 'one', '1.5'])
      for (const rest of ['', '/photo', '/thumbnail'])
        expect(await operator.ask('GET', `/api/attachments/${number}${rest}`)).toMatchObject({
          status: 404,
          body: { code: 'request.not-found' },
        });
  });

  it('and leaves the records whole', async () => {
    const reader = service.records.read(service.lab.labId);
    expect(await verifyRecords(reader, new PostgresRawStore())).toMatchObject({ holds: true, files: 5 });
  });
});

describe('a small copy', () => {
  it('says of which bytes it was made and by what, and is never the photo', async () => {
    const answer = await operator.fetch('/api/attachments/1/thumbnail');
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-type')).toBe('image/jpeg');
    expect(answer.headers.get('breakbook-derived-from')).toBe(
      `attachment 1; sha-256=${createHash('sha256').update(BASELINE).digest('hex')}`,
    );
    expect(answer.headers.get('breakbook-made-by')).toMatch(/^sharp \d/);
    const small = Buffer.from(await answer.arrayBuffer());
    expect(pictureIn(small)).toEqual({ mediaType: 'image/jpeg', width: 8, height: 6 });
    expect(small.equals(BASELINE)).toBe(false);
  });

  it('is upright, small, and without what the camera noted', async () => {
    // 6 (rotated) in the Exif tag Orientation, 1200 by 30 pixels as stored.
    const photo = await sharp({ create: { width: 1200, height: 30, channels: 3, background: 'teal' } })
      .jpeg()
      .withExif({ IFD0: { Make: 'Bench camera' } })
      .withMetadata({ orientation: 6 })
      .toBuffer();
    const { bytes } = await thumbnailOf(photo);
    expect(pictureIn(Buffer.from(bytes))).toEqual({ mediaType: 'image/jpeg', width: 12, height: THUMBNAIL_SIDE });
    expect(Buffer.from(bytes).includes('Bench camera')).toBe(false);
  });

  it('of bytes that no decoder reads, or of another kind, is refused with a reason', async () => {
    for (const bytes of [
      PNG.subarray(0, 40),
      Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'),
      Buffer.from('GIF89a'),
    ])
      await expect(thumbnailOf(bytes)).rejects.toThrow(/could not be made smaller/);
  });
});
