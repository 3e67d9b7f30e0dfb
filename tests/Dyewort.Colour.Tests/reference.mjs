// Writes colours as two independent libraries convert (colorjs.io) and compare (culori) them: 64-bit floats, little endian.
// The second library rounds its matrix between D65 and D50 to seven digits, so conversions are taken from the first.
// Usage: node reference.mjs COUNT FILE, in a folder where both are installed.
import { writeFileSync } from 'node:fs';
import Color from 'colorjs.io';
import { converter, differenceCiede2000, differenceCmc } from 'culori';

const count = Number(process.argv[2]);
let state = 20261125;
const next = () => { state = (Math.imul(state, 1664525) + 1013904223) >>> 0; return state / 4294967296; };
const spaces = ['lab-d65', 'lab', 'lch', 'oklab', 'p3', 'luv', 'xyz-d65'].map((name) => Color.spaces[name] ?? Color.Space.get(name));
const srgb = Color.Space.get('srgb');
const lab65 = converter('lab65');
const de00 = differenceCiede2000();
const cmc = differenceCmc(2, 1);
const out = new Float64Array(count * (3 + 3 * spaces.length + 2));
let colour = null;
let at = 0;
for (let i = 0; i < count; i++) {
  const before = colour;
  const rgb = [next(), next(), next()];
  colour = lab65({ mode: 'rgb', r: rgb[0], g: rgb[1], b: rgb[2] });
  for (const value of rgb) out[at++] = value;
  for (const space of spaces) for (const value of srgb.to(space, rgb)) out[at++] = value ?? 0;
  out[at++] = before ? de00(before, colour) : 0;
  out[at++] = before ? cmc(before, colour) : 0;
}
writeFileSync(process.argv[3], Buffer.from(out.buffer));
