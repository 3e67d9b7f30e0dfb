// The floor of the colour benchmarks: conversions to CIELAB and CIEDE2000 pairs per second in an npm library.
import { converter, differenceCiede2000 } from 'culori';

const count = 100000;
const colours = Array.from({ length: count }, () => ({ mode: 'rgb', r: Math.random(), g: Math.random(), b: Math.random() }));
const lab = converter('lab65');
const difference = differenceCiede2000();
const labs = colours.map(lab);
function perSecond(work) {
  const rounds = [];
  for (let round = 0; round < 6; round++) {
    const start = process.hrtime.bigint();
    let calls = 0;
    do { work(); calls++; } while (process.hrtime.bigint() - start < 300000000n);
    rounds.push(calls * count / (Number(process.hrtime.bigint() - start) / 1e9));
  }
  return rounds.slice(1).sort((x, y) => x - y)[2];
}
let sum = 0;
const conversions = perSecond(() => { for (const colour of colours) sum += lab(colour).l; });
const differences = perSecond(() => { for (let i = 1; i < count; i++) sum += difference(labs[i - 1], labs[i]); });
console.log(conversions, differences);
