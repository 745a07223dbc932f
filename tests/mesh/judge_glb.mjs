// Judges from outside the project over what write_glb writes: the Khronos glTF
// validator must find no error and no warning, and another reader must see the
// same bounds.
//
//   node judge_glb.mjs WRITE_SAMPLES FOLDER
//
// FOLDER holds node_modules with gltf-validator and @gltf-transform/core
// (npm install gltf-validator @gltf-transform/core). Prints what it judged;
// the exit status is 0 only where all of it is sound.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const [writer, modules] = process.argv.slice(2);
const require = createRequire(resolve(modules, 'x.js'));
const validator = require('gltf-validator');
const { NodeIO, Extension, getBounds } = require('@gltf-transform/core');

// The reader refuses required extensions that it does not know; this one asks nothing of it.
class Quantization extends Extension {
  extensionName = 'KHR_mesh_quantization';
  static EXTENSION_NAME = 'KHR_mesh_quantization';
  read() { return this; }
  write() { return this; }
}

const folder = mkdtempSync(join(tmpdir(), 'lugline-judge-'));
let bad = 0;
try {
  const expected = new Map();
  for (const line of execFileSync(writer, [folder], { encoding: 'utf8' }).trim().split('\n')) {
    const [, name, ...figures] =
      line.match(/^(.*) x (\S+) (\S+) y (\S+) (\S+) z (\S+) (\S+)$/);
    expected.set(name, figures.map(Number));
  }
  const io = new NodeIO().registerExtensions([Quantization]);
  let compared = 0;
  for (const file of readdirSync(folder).sort()) {
    const bytes = new Uint8Array(readFileSync(join(folder, file)));
    const { issues } = await validator.validateBytes(bytes, { maxIssues: 100 });
    console.log(`${file}: ${issues.numErrors} errors, ${issues.numWarnings} warnings`);
    if (issues.numErrors + issues.numWarnings > 0) {
      console.log(JSON.stringify(issues.messages, null, 1));
      bad += 1;
    }
    for (const node of (await io.readBinary(bytes)).getRoot().listNodes()) {
      const want = expected.get(`${file.replace('.glb', '')}/${node.getName()}`);
      if (!node.getMesh() || !want) continue;
      const { min, max } = getBounds(node);
      // (x, y, z) there is (x, -z, y) here.
      const seen = [min[0], max[0], -max[2], -min[2], min[1], max[1]];
      const off = Math.max(...seen.map((figure, i) => Math.abs(figure - want[i])));
      compared += 1;
      if (!(off < 1e-7)) {
        console.log(`${file}/${node.getName()}: bounds ${seen}, expected ${want}`);
        bad += 1;
      }
    }
  }
  console.log(`${compared} of ${expected.size} bounds compared`);
  bad += compared === expected.size ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true });
}
process.exit(bad === 0 ? 0 : 1);
