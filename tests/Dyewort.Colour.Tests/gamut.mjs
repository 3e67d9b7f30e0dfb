// Writes wide-gamut colours as XYZ, and the sRGB chip an independent library maps each to by the CSS method: 64-bit floats, little endian.
// Usage: node gamut.mjs COUNT FILE, in a folder with colorjs.io installed.
import { writeFileSync } from 'node:fs';
import Color from 'colorjs.io';

const count = Number(process.argv[2]);
let state = 20261125;
const next = () => { state = (Math.imul(state, 1664525) + 1013904223) >>> 0; return state / 4294967296; };
const out = new Float64Array(count * 6);
let at = 0;
for (let i = 0; i < count; i++) {
  const colour = new Color('oklch', [0.15 + 0.8 * next(), 0.05 + 0.3 * next(), 360 * next()]);
  for (const value of colour.to('xyz-d65').coords) out[at++] = value;
  for (const value of colour.toGamut({ space: 'srgb', method: 'css' }).to('srgb').coords) out[at++] = value;
}
writeFileSync(process.argv[3], Buffer.from(out.buffer));
