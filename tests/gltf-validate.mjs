// Runs the glTF validator over the named files; any error or warning fails.
//   node tests/gltf-validate.mjs <folder that holds node_modules> <file.glb>…
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';

const [home, ...files] = process.argv.slice(2);
if (!home || files.length === 0) {
  console.error('gltf-validate: give the folder that holds node_modules, and files');
  process.exit(2);
}
const validator = createRequire(resolve(home, 'package.json'))('gltf-validator');

let wrong = 0;
for (const file of files) {
  const report = await validator.validateBytes(new Uint8Array(readFileSync(file)), {
    uri: file,
    maxIssues: 0,
  });
  const bad = report.issues.messages.filter((message) => message.severity <= 1);
  if (report.issues.numErrors + report.issues.numWarnings === 0) continue;
  wrong += 1;
  console.error(`${file}: ${report.issues.numErrors} errors, ${report.issues.numWarnings} warnings`);
  for (const message of bad.slice(0, 20)) {
    console.error(`  ${message.code} at ${message.pointer}: ${message.message}`);
  }
}
console.log(`glTF validator ${validator.version()}: ${files.length} files, ${wrong} with errors or warnings`);
process.exit(wrong === 0 ? 0 : 1);
