import { spawnSync } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import exifr from 'exifr';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { renderPicture, type FileOptions } from '../../src/photos/render/render.ts';
import { folderWith } from '../cli/workspace.ts';

// The outside judge: ExifTool, a Perl program, from the registry's package for machines that have Perl.
const EXIFTOOL = join(import.meta.dirname, '../../node_modules/exiftool-vendored.pl/bin/exiftool');
const hasPerl = existsSync(EXIFTOOL) && spawnSync('perl', ['-v']).status === 0;

/** Marked in the picture as it is stored: 600 × 400 pixels, orientation 6 shows it as 400 × 600. */
const XMP = `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about=""
 xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/" xmlns:mwg-rs="http://www.metadataworkinggroup.com/schemas/regions/"
 xmlns:stDim="http://ns.adobe.com/xap/1.0/sType/Dimensions#" xmlns:stArea="http://ns.adobe.com/xmp/sType/Area#" xmlns:Iptc4xmpExt="http://iptc.org/std/Iptc4xmpExt/2008-02-29/" photoshop:City="Nowhere">
<dc:creator><rdf:Seq><rdf:li>Someone &amp; Sons</rdf:li></rdf:Seq></dc:creator><dc:rights><rdf:Alt><rdf:li xml:lang="x-default">© Someone</rdf:li></rdf:Alt></dc:rights>
<mwg-rs:Regions rdf:parseType="Resource"><mwg-rs:AppliedToDimensions stDim:w="600" stDim:h="400" stDim:unit="pixel"/><mwg-rs:RegionList><rdf:Bag>
<rdf:li><rdf:Description mwg-rs:Name="One" mwg-rs:Type="Face"><mwg-rs:Area stArea:x="0.5" stArea:y="0.5" stArea:w="0.1" stArea:h="0.3" stArea:unit="normalized"/></rdf:Description></rdf:li>
<rdf:li><rdf:Description mwg-rs:Name="Outside" mwg-rs:Type="Face"><mwg-rs:Area stArea:x="0.02" stArea:y="0.5" stArea:w="0.02" stArea:h="0.02" stArea:unit="normalized"/></rdf:Description></rdf:li>
</rdf:Bag></mwg-rs:RegionList></mwg-rs:Regions>
<Iptc4xmpExt:ImageRegion><rdf:Bag><rdf:li rdf:parseType="Resource"><Iptc4xmpExt:RegionBoundary rdf:parseType="Resource"><Iptc4xmpExt:rbShape>rectangle</Iptc4xmpExt:rbShape><Iptc4xmpExt:rbUnit>relative</Iptc4xmpExt:rbUnit><Iptc4xmpExt:rbX>0.5</Iptc4xmpExt:rbX><Iptc4xmpExt:rbY>0.25</Iptc4xmpExt:rbY><Iptc4xmpExt:rbW>0.25</Iptc4xmpExt:rbW><Iptc4xmpExt:rbH>0.25</Iptc4xmpExt:rbH></Iptc4xmpExt:RegionBoundary><Iptc4xmpExt:rId>r1</Iptc4xmpExt:rId></rdf:li></rdf:Bag></Iptc4xmpExt:ImageRegion>
</rdf:Description></rdf:RDF></x:xmpmeta>`;

const folder = folderWith({});
const path = join(folder, 'photo.jpg');
const made = sharp({ create: { width: 600, height: 400, channels: 3, background: '#456' } })
  .withMetadata({ orientation: 6 })
  .withExifMerge({
    IFD0: { Make: 'Camera', Copyright: '© Someone', Artist: 'Someone' },
    IFD2: { FNumber: '28/10', ExposureTime: '1/200' },
    IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '10/1 20/1 0/1', GPSLongitudeRef: 'E', GPSLongitude: '3/1 0/1 0/1' },
  })
  .withXmp(XMP)
  .jpeg()
  .toFile(path);

const OPTIONS: FileOptions = {
  format: 'jpeg',
  profile: 'srgb',
  sharpen: false,
  metadata: { kept: 'all', location: false },
};

async function rendered(options: Partial<FileOptions> = {}, degrees = 0): Promise<Buffer> {
  await made;
  // Of the 400 × 600 picture as it is seen.
  const crop = { left: 100, top: 150, right: 350, bottom: 450 };
  const cut = { degrees, crop, trimmed: { width: 250, height: 300 }, bleed: 0 };
  return (await renderPicture(path, (photo) => ({ ...cut, photo }), { ...OPTIONS, ...options })).bytes;
}

interface Read {
  readonly 'mwg-rs'?: {
    readonly Regions: { readonly AppliedToDimensions: object; readonly RegionList: Readonly<Record<string, unknown>> };
  };
  readonly Iptc4xmpExt?: { readonly ImageRegion: { readonly RegionBoundary: Readonly<Record<string, number>> } };
  readonly dc?: { readonly creator: unknown };
  readonly ifd0?: Readonly<Record<string, unknown>>;
  readonly exif?: Readonly<Record<string, unknown>>;
  readonly gps?: unknown;
}

async function read(bytes: Buffer): Promise<Read> {
  const told: unknown = await exifr.parse(bytes, {
    xmp: true,
    tiff: true,
    exif: true,
    gps: true,
    ifd0: {},
    mergeOutput: false,
  });
  return told ?? {};
}

describe('read back with exifr', () => {
  test('creator, rights and camera are kept, location and orientation are not', async () => {
    const bytes = await rendered();
    const told = await read(bytes);
    expect(told.ifd0).toMatchObject({ Make: 'Camera', Copyright: expect.stringContaining('Someone') as string });
    expect(told.exif).toMatchObject({ FNumber: 2.8, ExposureTime: 0.005 });
    expect(told.dc?.creator).toBe('Someone &amp; Sons');
    expect(told.gps).toBeUndefined();
    expect(bytes.includes('Nowhere')).toBe(false);
    expect((await sharp(bytes).metadata()).orientation ?? 1).toBe(1);
  });

  test('a face lies where it is seen in the new picture; one outside is gone', async () => {
    const { 'mwg-rs': regions } = await read(await rendered());
    expect(regions?.Regions.AppliedToDimensions).toMatchObject({ w: 250, h: 300 });
    // As seen: the middle of the photo (200, 300), 120 × 60 pixels (stored 60 × 120). In the crop: (100, 150) of 250 × 300.
    expect(regions?.Regions.RegionList).toMatchObject({ Name: 'One', Area: { x: 0.4, y: 0.5, w: 0.48, h: 0.2 } });
  });

  test('an IPTC region too', async () => {
    const { Iptc4xmpExt: regions } = await read(await rendered());
    // Stored x 300–450, y 100–200; seen x 200–300, y 300–450; in the crop x 100–200, y 150–300.
    expect(regions?.ImageRegion.RegionBoundary).toMatchObject({ rbX: 0.4, rbY: 0.5, rbW: 0.4, rbH: 0.5 });
  });

  test('turned: the smallest upright box around it', async () => {
    const { 'mwg-rs': regions } = await read(await rendered({}, 10));
    const { w, h } = (regions?.Regions.RegionList as { Area: Record<string, number> }).Area as { w: number; h: number };
    const [cosine, sine] = [Math.cos(Math.PI / 18), Math.sin(Math.PI / 18)];
    expect(w).toBeCloseTo((120 * cosine + 60 * sine) / 250, 4);
    expect(h).toBeCloseTo((120 * sine + 60 * cosine) / 300, 4);
  });

  test('as asked: only whose it is, or nothing, or the place too', async () => {
    const credit = await read(await rendered({ metadata: { kept: 'credit', location: false } }));
    expect(credit.ifd0).not.toHaveProperty('Make');
    expect(credit.ifd0).toMatchObject({ Artist: 'Someone & Sons' });
    expect(credit['mwg-rs']).toBeUndefined();
    expect(await read(await rendered({ metadata: { kept: 'none', location: true } }))).not.toHaveProperty('dc');
    expect((await read(await rendered({ metadata: { kept: 'all', location: true } }))).gps).toMatchObject({
      latitude: 10 + 20 / 60,
    });
  });
});

describe.skipIf(!hasPerl)(`read back with ExifTool${hasPerl ? '' : ' (skipped: no Perl here)'}`, () => {
  test.each(['jpeg', 'png', 'tiff', 'webp'] as const)('%s', async (format) => {
    const file = join(folder, `judged.${format}`);
    writeFileSync(file, await rendered({ format }));
    const { stdout } = spawnSync('perl', [EXIFTOOL, '-json', '-struct', '-n', '-G0', file], { encoding: 'utf8' });
    const [told] = JSON.parse(stdout) as [Readonly<Record<string, unknown>>];
    expect(told).toMatchObject({
      'XMP:Creator': ['Someone & Sons'],
      'XMP:Rights': '© Someone',
      // The image library writes no EXIF into a TIFF; XMP says whose it is.
      ...(format !== 'tiff' && { 'EXIF:FNumber': 2.8 }),
      'XMP:RegionInfo': {
        AppliedToDimensions: { W: 250, H: 300, Unit: 'pixel' },
        RegionList: [{ Name: 'One', Type: 'Face', Area: { X: 0.4, Y: 0.5, W: 0.48, H: 0.2 } }],
      },
      'XMP:ImageRegion': [
        { RId: 'r1', RegionBoundary: { RbShape: 'rectangle', RbX: 0.4, RbY: 0.5, RbW: 0.4, RbH: 0.5 } },
      ],
    });
    expect(Object.keys(told).filter((name) => /gps|city/i.test(name))).toEqual([]);
  });
});
