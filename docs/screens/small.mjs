// Pictures with few colours, so that they stay small.
import { crc32, deflateSync, inflateSync } from "node:zlib";

const COLOURS = 24;

/** A picture with few colours: the pixels of an 8-bit PNG (PNG third edition, 7 to 9), counted, the nearest kept. */
export function small(png) {
  let at = 8;
  let [width, height, kind] = [0, 0, 0];
  const data = [];
  while (at < png.length) {
    const length = png.readUInt32BE(at);
    const name = png.toString("latin1", at + 4, at + 8);
    const body = png.subarray(at + 8, at + 8 + length);
    if (name === "IHDR") [width, height, kind] = [body.readUInt32BE(0), body.readUInt32BE(4), body[9]];
    if (name === "IDAT") data.push(body);
    at += length + 12;
  }
  const deep = kind === 6 ? 4 : 3;
  const raw = inflateSync(Buffer.concat(data));
  const line = width * deep;
  const pixels = Buffer.alloc(line * height);
  for (let row = 0; row < height; row += 1) {
    const filter = raw[row * (line + 1)];
    for (let x = 0; x < line; x += 1) {
      const left = x >= deep ? pixels[row * line + x - deep] : 0;
      const up = row > 0 ? pixels[(row - 1) * line + x] : 0;
      const corner = x >= deep && row > 0 ? pixels[(row - 1) * line + x - deep] : 0;
      const guess = left + up - corner;
      const [a, b, c] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - corner)];
      const paeth = a <= b && a <= c ? left : b <= c ? up : corner;
      const add = [0, left, up, (left + up) >> 1, paeth][filter];
      pixels[row * line + x] = (raw[row * (line + 1) + 1 + x] + add) & 255;
    }
  }
  // Colours by how often they are there, near ones taken together.
  const counts = new Map();
  for (let i = 0; i < pixels.length; i += deep) {
    const colour = (pixels[i] << 16) | (pixels[i + 1] << 8) | pixels[i + 2];
    counts.set(colour, (counts.get(colour) ?? 0) + 1);
  }
  const parts = (colour) => [colour >> 16, (colour >> 8) & 255, colour & 255];
  const far = (one, other) => parts(one).reduce((sum, value, i) => sum + (value - parts(other)[i]) ** 2, 0);
  const chosen = [];
  for (const apart of [900, 300, 0]) {
    for (const [colour] of [...counts].sort((one, other) => other[1] - one[1])) {
      if (chosen.length < COLOURS && chosen.every((one) => far(one, colour) > apart)) chosen.push(colour);
    }
  }
  const nearest = new Map();
  const index = (colour) => {
    if (!nearest.has(colour)) {
      nearest.set(colour, chosen.reduce((best, one, i) => (far(one, colour) < far(chosen[best], colour) ? i : best), 0));
    }
    return nearest.get(colour);
  };
  const rows = Buffer.alloc((width + 1) * height);
  for (let row = 0; row < height; row += 1) {
    for (let x = 0; x < width; x += 1) {
      const i = row * line + x * deep;
      rows[row * (width + 1) + 1 + x] = index((pixels[i] << 16) | (pixels[i + 1] << 8) | pixels[i + 2]);
    }
  }
  const chunk = (name, body) => {
    const named = Buffer.concat([Buffer.from(name, "latin1"), body]);
    const frame = Buffer.alloc(8);
    frame.writeUInt32BE(body.length, 0);
    frame.writeUInt32BE(crc32(named), 4);
    return Buffer.concat([frame.subarray(0, 4), named, frame.subarray(4)]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 3, 0, 0, 0], 8);
  return Buffer.concat([
    png.subarray(0, 8),
    chunk("IHDR", head),
    chunk("PLTE", Buffer.from(chosen.flatMap(parts))),
    chunk("IDAT", deflateSync(rows, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}
