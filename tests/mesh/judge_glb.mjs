// Judges from outside the project over models that write_glb wrote: the Khronos glTF
// validator must find no error and no warning, and another reader, glTF Transform,
// must see the same bounds, volume, triangles and material names as ours does.
// A file with animations is judged as it is, and again at rest and posed at ten moments of
// its first animation, with what is hidden then (scale 0) taken out.
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
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
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
// turned: by quaternions of 32 bits, which readers bring to unit length each in its way.
function differences(want, node, turned) {
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
  const allowed = turned ? 1e-9 : 1e-12;
  if (!(off <= allowed + allowed * wide)) found.push(`bounds ${seen}, here ${ours}`);
  if (!(Math.abs(volume / want.volume_m3 - 1) < 1e-9)) found.push(`volume ${volume}, here ${want.volume_m3}`);
  if (triangles !== want.triangles) found.push(`${triangles} triangles, here ${want.triangles}`);
  if (materials.join() !== want.materials.join()) found.push(`materials ${materials}, here ${want.materials}`);
  return found;
}

// A sampler's figure at a time, as glTF 2.0 says that STEP and LINEAR are played.
function played(sampler, time) {
  const times = [...sampler.getInput().getArray()];
  const output = sampler.getOutput();
  const after = times.findIndex((at) => at > time);
  const next = after < 0 ? times.length - 1 : after;
  const last = after < 0 ? next : Math.max(after - 1, 0);
  const a = output.getElement(last, []);
  if (last === next || sampler.getInterpolation() === 'STEP') return a;
  const share = (time - times[last]) / (times[next] - times[last]);
  let b = output.getElement(next, []);
  if (a.length !== 4) return a.map((figure, i) => figure * (1 - share) + b[i] * share);
  let cosine = a.reduce((sum, figure, i) => sum + figure * b[i], 0);
  if (cosine < 0) { b = b.map((figure) => -figure); cosine = -cosine; }
  const angle = Math.acos(Math.min(cosine, 1));
  const [wa, wb] = angle < 1e-4 ? [1 - share, share] :
    [Math.sin((1 - share) * angle) / Math.sin(angle), Math.sin(share * angle) / Math.sin(angle)];
  const q = a.map((figure, i) => wa * figure + wb * b[i]);
  return q.map((figure) => figure / Math.hypot(...q));
}

// The model as it stands at a time of an animation (null: at rest), with nothing that moves.
async function posed(io, bytes, number, time) {
  const document = await io.readBinary(bytes);
  const root = document.getRoot();
  if (number !== null) {
    for (const channel of root.listAnimations()[number].listChannels()) {
      const figure = played(channel.getSampler(), time);
      const node = channel.getTargetNode();
      if (channel.getTargetPath() === 'translation') node.setTranslation(figure);
      if (channel.getTargetPath() === 'rotation') node.setRotation(figure);
      if (channel.getTargetPath() === 'scale') node.setScale(figure);
    }
  }
  for (const animation of root.listAnimations()) {
    const parts = [...animation.listChannels(), ...animation.listSamplers()];
    [...parts, animation].forEach((part) => part.dispose());
  }
  for (const node of root.listNodes().filter((one) => Math.hypot(...one.getScale()) === 0)) {
    node.traverse((one) => one.setMesh(null));
  }
  return io.writeBinary(document);
}

// The animations that the file's own extras tell of, and poses of it as files.
async function animated(io, file, bytes, folder) {
  const root = (await io.readBinary(bytes)).getRoot();
  const animations = root.listAnimations();
  if (animations.length === 0) return [];
  const { steps, seconds } = root.getDefaultScene().getExtras();
  const moving = steps.filter((step) => step.rests_s > step.start_s).length;
  const ends = animations[0].listSamplers().map((one) => one.getInput().getMax([])[0]);
  console.log(`${file}: ${animations.length} animations, ${seconds} s`);
  if (animations.length !== moving + 1) { console.log(`… for ${moving} steps that move`); bad += 1; }
  if (Math.max(...ends) > seconds + 1e-3) { console.log(`… lasts ${Math.max(...ends)} s`); bad += 1; }
  const files = [];
  for (let i = -1; i <= 10; i += 1) {
    const name = join(folder, `posed-${files.length}.glb`);
    writeFileSync(name, await posed(io, bytes, i < 0 ? null : 0, (seconds * i) / 10));
    files.push(name);
  }
  return files;
}

const folder = mkdtempSync(join(tmpdir(), 'lugline-judge-'));
let bad = 0;
let compared = 0;
try {
  execFileSync(join(binaries, 'write_samples'), [folder]);
  const samples = readdirSync(folder).sort().map((name) => join(folder, name));
  const io = new NodeIO().registerExtensions([Quantization]);
  const files = [...samples, ...given];
  const posedFiles = new Set();
  for (let next = 0; next < files.length; next += 1) {
    const file = files[next];
    const bytes = new Uint8Array(readFileSync(file));
    const { issues } = await validator.validateBytes(bytes, { maxIssues: 100 });
    if (issues.numErrors + issues.numWarnings > 0) {
      console.log(`${file}: ${issues.numErrors} errors, ${issues.numWarnings} warnings`);
      console.log(JSON.stringify(issues.messages, null, 1));
      bad += 1;
    }
    const poses = await animated(io, file, bytes, folder);
    if (poses.length > 0) {
      files.push(...poses);
      poses.forEach((one) => posedFiles.add(one));
      continue; // ours takes no model with parts of no size
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
      for (const what of differences(read[i], node, posedFiles.has(file))) {
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
