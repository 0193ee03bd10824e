// @ts-check
/** A picture for each frame that a fix changed: the photo with the old and the new crop, beside what is delivered. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';

/**
 * @typedef {{ x: number, y: number, w: number, h: number }} Crop in fractions of the photo, in the turned picture
 * @typedef {{ left: number, top: number, width: number, height: number }} Box in pixels
 * @typedef {{ rule: string, severity: string, message: string, allowed?: string }} Found
 * @typedef {{ photo: string, index: number, crop: Crop, straighten: number, findings: Found[] }} CheckedFrame
 * @typedef {{ name: string, file: string, jpeg: Buffer, width: number, height: number, before: CheckedFrame, after: CheckedFrame }} Picture
 */

const LONG_SIDE = 1200;
const MARGIN = 16;
const GAP = 24;
const BACKGROUND = '#6e6e6e';

/**
 * The two lines differ in colour, width and dashes, so that one is enough to tell them apart. The colours are two that
 * people with any kind of colour vision tell apart (Okabe and Ito, "Color Universal Design", 2008); the light border
 * keeps them readable on any photo.
 */
export const LINES = {
  before: { colour: '#d55e00', width: 3, dashes: '12 8' },
  after: { colour: '#0072b2', width: 7, dashes: undefined },
};

/**
 * Draws every frame whose crop changed between two checks.
 * @param {{ before: CheckedFrame[], after: CheckedFrame[], photos: string, to: string }} given `photos` and `to` are folders
 * @returns {Promise<Picture[]>} in the order of the manifest
 */
export async function drawFixes({ before, after, photos, to }) {
  mkdirSync(to, { recursive: true });
  const pictures = [];
  for (const [position, now] of after.entries()) {
    const then = before[position];
    if (!then || JSON.stringify(then.crop) === JSON.stringify(now.crop)) continue;
    const number = after.slice(0, position + 1).filter(({ photo }) => photo === now.photo).length;
    const name = number === 1 ? now.photo : `${now.photo}#${number}`;
    const file = `${String(now.index + 1).padStart(2, '0')}-${now.photo.replace(/\.[^.]+$/, '').replaceAll('/', '-')}.jpg`;
    const drawn = await drawFix(join(photos, now.photo), then.crop, now.crop, now.straighten);
    writeFileSync(join(to, file), drawn.jpeg);
    pictures.push({ name, file, before: then, after: now, ...drawn });
  }
  return pictures;
}

/**
 * @param {string} photo
 * @param {Crop} before
 * @param {Crop} after
 * @param {number} degrees positive clockwise
 */
async function drawFix(photo, before, after, degrees) {
  const oriented = await pixels(sharp(photo).autoOrient());
  const turned = await pixels(open(oriented).rotate(degrees, { background: BACKGROUND }));
  const { info } = turned;
  const inTurned = (/** @type {Crop} */ crop) => boxOf(crop, oriented.info, info);
  const kept = clamp(inTurned(after), info);
  const shapes = info.width / info.height + kept.width / kept.height;
  const room = LONG_SIDE - 2 * MARGIN;
  const height = Math.floor(Math.min(room, (room - GAP) / shapes));
  const whole = await pixels(open(turned).resize({ height }));
  const delivered = await pixels(open(turned).extract(kept).resize({ height }));
  const scale = height / info.height;
  const size = { width: whole.info.width + delivered.info.width + GAP + 2 * MARGIN, height: height + 2 * MARGIN };
  const lines = drawLines(scaled(inTurned(before), scale), scaled(inTurned(after), scale), whole.info, size);
  const jpeg = await sharp({ create: { ...size, channels: 3, background: BACKGROUND } })
    .composite([
      { input: whole.data, raw: whole.info, left: MARGIN, top: MARGIN },
      { input: delivered.data, raw: delivered.info, left: MARGIN + whole.info.width + GAP, top: MARGIN },
      { input: Buffer.from(lines), left: 0, top: 0 },
    ])
    .jpeg({ quality: 82, mozjpeg: true })
    .toBuffer();
  return { jpeg, ...size };
}

/**
 * Pixels as they are: nothing is lost between the steps.
 * @typedef {{ data: Buffer, info: import('sharp').OutputInfo }} Pixels
 * @param {import('sharp').Sharp} picture
 * @returns {Promise<Pixels>}
 */
function pixels(picture) {
  return picture.toColourspace('srgb').removeAlpha().raw().toBuffer({ resolveWithObject: true });
}

/** @param {Pixels} pixels */
function open({ data, info }) {
  return sharp(data, { raw: info });
}

/**
 * The photo's centre stays the centre of the turned picture.
 * @param {Crop} crop
 * @param {{ width: number, height: number }} photo
 * @param {{ width: number, height: number }} turned
 * @returns {Box}
 */
function boxOf({ x, y, w, h }, photo, turned) {
  return {
    left: (x - 0.5) * photo.width + turned.width / 2,
    top: (y - 0.5) * photo.height + turned.height / 2,
    width: w * photo.width,
    height: h * photo.height,
  };
}

/**
 * Whole pixels inside the picture.
 * @param {Box} box
 * @param {{ width: number, height: number }} picture
 * @returns {Box}
 */
function clamp(box, picture) {
  const left = Math.max(0, Math.round(box.left));
  const top = Math.max(0, Math.round(box.top));
  return {
    left,
    top,
    width: Math.min(picture.width - left, Math.round(box.width)),
    height: Math.min(picture.height - top, Math.round(box.height)),
  };
}

/**
 * @param {Box} box
 * @param {number} scale
 * @returns {Box}
 */
function scaled({ left, top, width, height }, scale) {
  return { left: left * scale, top: top * scale, width: width * scale, height: height * scale };
}

/**
 * What is cut away is darker; then the new crop, then the old one over it, so that both are seen where they meet.
 * @param {Box} before
 * @param {Box} after
 * @param {{ width: number, height: number }} panel
 * @param {{ width: number, height: number }} size
 */
function drawLines(before, after, panel, size) {
  const outline = (/** @type {Box} */ { left, top, width, height }) => `M${left} ${top}h${width}v${height}h${-width}z`;
  const away = `M0 0h${panel.width}v${panel.height}h${-panel.width}z${outline(after)}`;
  const line = (
    /** @type {Box} */ box,
    /** @type {{ colour: string, width: number, dashes?: string | undefined }} */ style,
  ) =>
    `<path d="${outline(box)}" fill="none" stroke="#fff" stroke-width="${style.width + 3}"/>` +
    `<path d="${outline(box)}" fill="none" stroke="${style.colour}" stroke-width="${style.width}"` +
    `${style.dashes === undefined ? '' : ` stroke-dasharray="${style.dashes}"`}/>`;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${size.width}" height="${size.height}">` +
    `<g transform="translate(${MARGIN} ${MARGIN})"><path d="${away}" fill="#000" fill-opacity="0.45" fill-rule="evenodd"/>` +
    `${line(after, LINES.after)}${line(before, LINES.before)}</g></svg>`
  );
}
