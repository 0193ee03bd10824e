/** CIELAB of sRGB levels 0 to 255 (IEC 61966-2-1, D65). */
export function labOfLevels(levels: readonly number[]): readonly [number, number, number] {
  const [r, g, b] = levels.map((level) => {
    const share = level / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  const curve = (value: number): number =>
    value > 216 / 24_389 ? Math.cbrt(value) : (value * 24_389) / 27 / 116 + 16 / 116;
  const x = curve((0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047);
  const y = curve(0.2126729 * r + 0.7151522 * g + 0.072175 * b);
  const z = curve((0.0193339 * r + 0.119192 * g + 0.9503041 * b) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const degrees = (radians: number): number => ((radians * 180) / Math.PI + 360) % 360;
const cosine = (angle: number): number => Math.cos((angle * Math.PI) / 180);
const sine = (angle: number): number => Math.sin((angle * Math.PI) / 180);

/** CIEDE2000 (CIE 142-2001), as Sharma, Wu and Dalal 2005 write it. */
export function difference2000(
  [l1, a1, b1]: readonly [number, number, number],
  [l2, a2, b2]: readonly [number, number, number],
): number {
  const mean = (Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2;
  const stretch = 1 + 0.5 * (1 - Math.sqrt(mean ** 7 / (mean ** 7 + 25 ** 7)));
  const [c1, c2] = [Math.hypot(a1 * stretch, b1), Math.hypot(a2 * stretch, b2)];
  const [h1, h2] = [degrees(Math.atan2(b1, a1 * stretch)), degrees(Math.atan2(b2, a2 * stretch))];
  const isGrey = c1 * c2 === 0;
  const apart = isGrey ? 0 : ((h2 - h1 + 540) % 360) - 180;
  const hue = 2 * Math.sqrt(c1 * c2) * sine(apart / 2);
  const middle = isGrey
    ? h1 + h2
    : Math.abs(h1 - h2) <= 180
      ? (h1 + h2) / 2
      : (h1 + h2 + (h1 + h2 < 360 ? 360 : -360)) / 2;
  const [l, c] = [(l1 + l2) / 2, (c1 + c2) / 2];
  const t =
    1 -
    0.17 * cosine(middle - 30) +
    0.24 * cosine(2 * middle) +
    0.32 * cosine(3 * middle + 6) -
    0.2 * cosine(4 * middle - 63);
  const sl = 1 + (0.015 * (l - 50) ** 2) / Math.sqrt(20 + (l - 50) ** 2);
  const [sc, sh] = [1 + 0.045 * c, 1 + 0.015 * c * t];
  const turn = -sine(60 * Math.exp(-(((middle - 275) / 25) ** 2))) * 2 * Math.sqrt(c ** 7 / (c ** 7 + 25 ** 7));
  const [dl, dc, dh] = [(l2 - l1) / sl, (c2 - c1) / sc, hue / sh];
  return Math.sqrt(dl ** 2 + dc ** 2 + dh ** 2 + turn * dc * dh);
}
