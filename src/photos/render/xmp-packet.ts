import type { Size } from '../../geometry/shapes.ts';
import type { Credit } from './credit.ts';
import type { MovedRegion } from './moved-regions.ts';

/** Namespaces as the standards give them (XMP part 1 and 2, IPTC Photo Metadata, MWG 2.0). */
const NAMESPACES: Readonly<Record<string, string>> = {
  dc: 'http://purl.org/dc/elements/1.1/',
  photoshop: 'http://ns.adobe.com/photoshop/1.0/',
  xmp: 'http://ns.adobe.com/xap/1.0/',
  xmpRights: 'http://ns.adobe.com/xap/1.0/rights/',
  Iptc4xmpExt: 'http://iptc.org/std/Iptc4xmpExt/2008-02-29/',
  'mwg-rs': 'http://www.metadataworkinggroup.com/schemas/regions/',
  stArea: 'http://ns.adobe.com/xmp/sType/Area#',
  stDim: 'http://ns.adobe.com/xap/1.0/sType/Dimensions#',
};

/** A whole XMP packet; undefined when there is nothing to say. */
export function xmpPacket(credit: Credit, regions: readonly MovedRegion[], picture: Size): string | undefined {
  const properties = [...creditProperties(credit), ...mwgProperties(regions, picture), ...iptcProperties(regions)];
  if (properties.length === 0) return undefined;
  const body = properties.join('\n');
  const used = Object.entries(NAMESPACES)
    .filter(([prefix]) => body.includes(`<${prefix}:`))
    .map(([prefix, name]) => ` xmlns:${prefix}="${name}"`)
    .join('');
  return [
    '<?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>',
    '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">',
    `<rdf:Description rdf:about=""${used}>`,
    body,
    '</rdf:Description></rdf:RDF></x:xmpmeta>',
    '<?xpacket end="w"?>',
  ].join('\n');
}

function creditProperties(credit: Credit): string[] {
  return [
    ...some(credit.creators, () => element('dc:creator', list('Seq', credit.creators.map(escaped)))),
    ...one(credit.rights, (text) => element('dc:rights', alternative(text))),
    ...one(credit.title, (text) => element('dc:title', alternative(text))),
    ...one(credit.description, (text) => element('dc:description', alternative(text))),
    ...one(credit.creditLine, (text) => element('photoshop:Credit', escaped(text))),
    ...one(credit.usageTerms, (text) => element('xmpRights:UsageTerms', alternative(text))),
    ...one(credit.statement, (text) => element('xmpRights:WebStatement', escaped(text))),
    ...one(credit.city, (text) => element('photoshop:City', escaped(text))),
    ...one(credit.country, (text) => element('photoshop:Country', escaped(text))),
  ];
}

function mwgProperties(regions: readonly MovedRegion[], { width, height }: Size): string[] {
  const own = regions.filter(({ standard }) => standard === 'mwg');
  if (own.length === 0) return [];
  const items = own.map(({ box: { left, top, right, bottom }, names, type }) => {
    const area = { x: (left + right) / 2, y: (top + bottom) / 2, w: right - left, h: bottom - top };
    return [
      ...names.slice(0, 1).map((name) => element('mwg-rs:Name', escaped(name))),
      ...one(type, (text) => element('mwg-rs:Type', escaped(text))),
      structure('mwg-rs:Area', [...numbers('stArea', area), element('stArea:unit', 'normalized')]),
    ].join('');
  });
  const dimensions = [`<stDim:w>${width}</stDim:w>`, `<stDim:h>${height}</stDim:h>`, element('stDim:unit', 'pixel')];
  const content = [
    structure('mwg-rs:AppliedToDimensions', dimensions),
    element('mwg-rs:RegionList', structures('Bag', items)),
  ];
  return [structure('mwg-rs:Regions', content)];
}

function iptcProperties(regions: readonly MovedRegion[]): string[] {
  const own = regions.filter(({ standard }) => standard === 'iptc');
  if (own.length === 0) return [];
  const items = own.map((region) =>
    [
      structure('Iptc4xmpExt:RegionBoundary', boundary(region)),
      ...one(region.id, (id) => element('Iptc4xmpExt:rId', escaped(id))),
      ...region.names.slice(0, 1).map((name) => element('Iptc4xmpExt:Name', alternative(name))),
      ...terms('Iptc4xmpExt:rCtype', region.kinds),
      ...terms('Iptc4xmpExt:rRole', region.roles),
    ].join(''),
  );
  return [element('Iptc4xmpExt:ImageRegion', structures('Bag', items))];
}

function boundary({ shape, box, points, radius }: MovedRegion): string[] {
  const kind = [element('Iptc4xmpExt:rbShape', shape), element('Iptc4xmpExt:rbUnit', 'relative')];
  switch (shape) {
    case 'rectangle': {
      const { left, top, right, bottom } = box;
      const sides = { rbX: left, rbY: top, rbW: right - left, rbH: bottom - top };
      return [...kind, ...numbers('Iptc4xmpExt', sides)];
    }
    case 'circle':
      return [...kind, ...numbers('Iptc4xmpExt', { rbX: points[0]!.x, rbY: points[0]!.y, rbRx: radius })];
    case 'polygon': {
      const vertices = points.map(({ x, y }) => numbers('Iptc4xmpExt', { rbX: x, rbY: y }).join(''));
      return [...kind, element('Iptc4xmpExt:rbVertices', structures('Seq', vertices))];
    }
  }
}

function terms(name: string, identifiers: readonly string[]): string[] {
  return some(identifiers, () => {
    const items = identifiers.map((id) => element('xmp:Identifier', list('Bag', [escaped(id)])));
    return element(name, structures('Bag', items));
  });
}

function numbers(prefix: string, values: Readonly<Record<string, number>>): string[] {
  return Object.entries(values).map(([name, value]) => element(`${prefix}:${name}`, value.toFixed(6)));
}

function element(name: string, content: string): string {
  return `<${name}>${content}</${name}>`;
}

function structure(name: string, content: readonly string[]): string {
  return `<${name} rdf:parseType="Resource">${content.join('')}</${name}>`;
}

function list(kind: 'Seq' | 'Bag', items: readonly string[]): string {
  return element(`rdf:${kind}`, items.map((item) => element('rdf:li', item)).join(''));
}

function structures(kind: 'Seq' | 'Bag', items: readonly string[]): string {
  return element(`rdf:${kind}`, items.map((item) => `<rdf:li rdf:parseType="Resource">${item}</rdf:li>`).join(''));
}

function alternative(text: string): string {
  return `<rdf:Alt><rdf:li xml:lang="x-default">${escaped(text)}</rdf:li></rdf:Alt>`;
}

function one(text: string | undefined, write: (text: string) => string): string[] {
  return text === undefined ? [] : [write(text)];
}

function some(items: readonly string[], write: () => string): string[] {
  return items.length === 0 ? [] : [write()];
}

/** XML 1.0: no markup, and no characters that a document may not have. */
function escaped(text: string): string {
  return text
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;');
}
