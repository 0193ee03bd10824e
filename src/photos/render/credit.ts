import { textsOf, type Told } from './told.ts';

/** Whose picture it is, and what it shows in words. */
export interface Credit {
  readonly creators: readonly string[];
  readonly rights?: string;
  readonly title?: string;
  readonly description?: string;
  readonly creditLine?: string;
  readonly usageTerms?: string;
  /** An address where the terms can be read. */
  readonly statement?: string;
  /** Only where the file says where the photo was taken. */
  readonly city?: string;
  readonly country?: string;
}

export interface CreditOptions {
  /** Title and description too. */
  readonly words: boolean;
  readonly location: boolean;
}

/** From XMP, else IPTC IIM, else EXIF: of the same thing the richer form (IPTC Photo Metadata Standard, mapping table). */
export function creditOf(told: Told, { words, location }: CreditOptions): Credit {
  const { dc, photoshop, xmpRights, iptc, ifd0 } = told;
  const creators = firstTexts(dc?.['creator'], iptc?.['Byline'], ifd0?.['Artist']);
  const entries = {
    rights: firstTexts(dc?.['rights'], iptc?.['CopyrightNotice'], ifd0?.['Copyright']),
    creditLine: firstTexts(photoshop?.['Credit'], iptc?.['Credit']),
    usageTerms: firstTexts(xmpRights?.['UsageTerms']),
    statement: firstTexts(xmpRights?.['WebStatement']),
    ...(words && {
      title: firstTexts(dc?.['title'], iptc?.['ObjectName']),
      description: firstTexts(dc?.['description'], iptc?.['Caption'], ifd0?.['ImageDescription']),
    }),
    ...(location && {
      city: firstTexts(photoshop?.['City'], iptc?.['City']),
      country: firstTexts(photoshop?.['Country'], iptc?.['Country']),
    }),
  };
  const said = Object.entries(entries).flatMap(([name, [text]]) => (text === undefined ? [] : [[name, text] as const]));
  return { creators, ...Object.fromEntries(said) };
}

function firstTexts(...values: readonly unknown[]): string[] {
  return values.map(textsOf).find((texts) => texts.length > 0) ?? [];
}
