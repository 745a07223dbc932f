// Judges from outside the project over models that write_glb wrote: the Khronos glTF
// validator must find no error and no warning, and another reader, glTF Transform,
// must see the same bounds, volume, triangles and material names as ours does.
//
//   node judge_glb.mjs MODULES BINARIES [FILE.glb…]
//
// MODULES holds node_modules with gltf-validator and @gltf-transform/core
// (npm install gltf-validator@2.0.0-dev.3.10 @gltf-transform/core@4.5.1), BINARIES the
// programs write_samples and print_models. The samples of the writer's own tests are
// judged before the files. Prints what it judged; the exit status is 0 only where all
// of it is sound. (Debian's assimp 5.2 takes quantised positions for floats, and is no
// judge of them.)
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const [modules, binaries, ...given] = process.argv.slice(2);
const require = createRequire(resolve(modules, 'x.js'));
const validator = require('gltf-validator');
const { NodeIO, Extension, getBounds } = require('@gltf-transform/core');

// Figures of all kinds are read by the core; without this it refuses the extension's name.
class Quantization extends Extension {
  extensionName = 'KHR_mesh_quantization';
  static EXTENSION_NAME = 'KHR_mesh_quantization';
  read() { return this; }
  write() { return this; }
}

// In the file's own frame, +Y up: the sign and the size are the same in ours.
function volumeOf(node) {
  const m = node.getWorldMatrix();
  const placed = (p) => [0, 1, 2].map((i) => m[i] * p[0] + m[4 + i] * p[1] + m[8 + i] * p[2] + m[12 + i]);
  let six = 0;
  for (const primitive of node.getMesh().listPrimitives()) {
    const position = primitive.getAttribute('POSITION');
    const corners = [...primitive.getIndices().getArray()].map((i) => placed(position.getElement(i, [])));
    for (let i = 0; i < corners.length; i += 3) {
      const [a, b, c] = corners.slice(i, i + 3);
      six += a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) +
             a[2] * (b[0] * c[1] - b[1] * c[0]);
    }
  }
  return six / 6;
}

// What differs between our reader's line and the other reader's node, in words.
function differences(want, node) {
  const { min, max } = getBounds(node);
  // (x, y, z) there is (x, -z, y) here.
  const seen = [min[0], -max[2], min[1], max[0], -min[2], max[1]];
  const ours = [...want.low_m, ...want.high_m];
  const wide = Math.max(...ours.map(Math.abs));
  const off = Math.max(...seen.map((figure, i) => Math.abs(figure - ours[i])));
  const primitives = node.getMesh().listPrimitives();
  const triangles = primitives.reduce((sum, p) => sum + p.getIndices().getCount() / 3, 0);
  const materials = primitives.map((p) => p.getMaterial()?.getName() ?? '');
  const volume = volumeOf(node);
  const found = [];
  if (!(off <= 1e-12 + 1e-12 * wide)) found.push(`bounds ${seen}, here ${ours}`);
  if (!(Math.abs(volume / want.volume_m3 - 1) < 1e-9)) found.push(`volume ${volume}, here ${want.volume_m3}`);
  if (triangles !== want.triangles) found.push(`${triangles} triangles, here ${want.triangles}`);
  if (materials.join() !== want.materials.join()) found.push(`materials ${materials}, here ${want.materials}`);
  return found;
}

const folder = mkdtempSync(join(tmpdir(), 'lugline-judge-'));
let bad = 0;
let compared = 0;
try {
  execFileSync(join(binaries, 'write_samples'), [folder]);
  const samples = readdirSync(folder).sort().map((name) => join(folder, name));
  const io = new NodeIO().registerExtensions([Quantization]);
  for (const file of [...samples, ...given]) {
    const bytes = new Uint8Array(readFileSync(file));
    const { issues } = await validator.validateBytes(bytes, { maxIssues: 100 });
    if (issues.numErrors + issues.numWarnings > 0) {
      console.log(`${file}: ${issues.numErrors} errors, ${issues.numWarnings} warnings`);
      console.log(JSON.stringify(issues.messages, null, 1));
      bad += 1;
    }
    const nodes = (await io.readBinary(bytes)).getRoot().listNodes().filter((node) => node.getMesh());
    if (nodes.length === 0) continue; // the sample of nothing, which our reader refuses
    const lines = execFileSync(join(binaries, 'print_models'), [file], { encoding: 'utf8' });
    const read = lines.trim().split('\n').map((line) => JSON.parse(line));
    if (read.map((one) => one.node).join() !== nodes.map((node) => node.getName()).join()) {
      console.log(`${file}: other nodes than ours`);
      bad += 1;
      continue;
    }
    nodes.forEach((node, i) => {
      compared += 1;
      for (const what of differences(read[i], node)) {
        console.log(`${file}, ${node.getName()}: ${what}`);
        bad += 1;
      }
    });
  }
} finally {
  rmSync(folder, { recursive: true });
}
console.log(`another reader: ${compared} meshes compared, ${bad} faults`);
process.exit(bad === 0 && compared > given.length ? 0 : 1);
