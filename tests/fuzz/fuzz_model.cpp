// Any bytes as a model: the reader answers with sound nodes or with problems, and
// with nothing else.
//
// Bytes that begin with "J" are JSON, then a zero byte, then a binary buffer, and
// are put into a GLB here, so that most of the search is not spent on the lengths
// in a GLB's header. All others are read as they are. model_seeds.py makes seeds.
#include "scene/mesh/closed.h"
#include "scene/mesh/gltf_read.h"
#include "scene/mesh/vector.h"
#include "scene/part/extras.h"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <vector>

namespace {

using namespace lugline;
using Bytes = std::vector<unsigned char>;

/// Not assert: it must hold in every build.
void must(bool holds) {
  if (!holds) {
    std::abort();
  }
}

void put_u32(Bytes& bytes, std::size_t figure) {
  for (int i = 0; i < 4; ++i) {
    bytes.push_back(static_cast<unsigned char>(figure >> (8 * i)));
  }
}

void put_chunk(Bytes& glb, std::uint32_t type, Bytes chunk, unsigned char padding) {
  chunk.resize((chunk.size() + 3) / 4 * 4, padding);
  put_u32(glb, chunk.size());
  put_u32(glb, type);
  glb.insert(glb.end(), chunk.begin(), chunk.end());
}

Bytes as_glb(const Bytes& packed) {
  const auto zero = std::find(packed.begin(), packed.end(), 0);
  Bytes body;
  put_chunk(body, 0x4e4f534a, Bytes(packed.begin() + 1, zero), ' ');
  if (zero != packed.end() && zero + 1 != packed.end()) {
    put_chunk(body, 0x004e4942, Bytes(zero + 1, packed.end()), 0);
  }
  Bytes glb{'g', 'l', 'T', 'F', 2, 0, 0, 0};
  put_u32(glb, 12 + body.size());
  glb.insert(glb.end(), body.begin(), body.end());
  return glb;
}

ModelLimits small_limits() {
  ModelLimits limits;
  limits.triangles = 20'000;
  limits.vertices = 60'000;
  limits.zero_elements = 10'000;
  limits.nodes = 1'000;
  limits.primitives = 1'000;
  limits.path_bytes = 100'000;
  return limits;
}

void check(const ModelReport& report, const ModelLimits& limits) {
  must(report.nodes.empty() != report.problems.empty());
  std::size_t triangles = 0;
  for (const ModelNode& node : report.nodes) {
    must(slip_in(node.mesh).empty());
    must(!node.path.empty());
    must(!node.mesh.triangles.empty());
    triangles += node.mesh.triangles.size();
    const WeldedMesh welded = weld(node.mesh);
    must(welded.triangles.size() == node.mesh.triangles.size());
    (void)closed_report(welded);
    (void)crease_edges(welded, 0.5);
    (void)body_figures(node.mesh);
    (void)component_from_extras_text(node.extras_json);
  }
  must(triangles <= limits.triangles);
}

/// What was read must be something that can be written, and read again the same.
void check_again(const ModelReport& report, const ModelLimits& limits) {
  std::vector<ModelPart> parts;
  for (const ModelNode& node : report.nodes) {
    parts.push_back({node.name, &node.mesh, {}});
  }
  if (parts.empty()) {
    return;
  }
  const Bytes glb = write_glb(parts);
  const ModelReport again = read_model_bytes(glb, "model.glb", "/nonexistent-folder", limits);
  if (!again.problems.empty()) {
    return; // a float cannot hold what a double could, or a limit counts the copies
  }
  must(again.nodes.size() == report.nodes.size());
  for (std::size_t i = 0; i < again.nodes.size(); ++i) {
    const Mesh& once = report.nodes[i].mesh;
    const Mesh& twice = again.nodes[i].mesh;
    must(twice.triangles == once.triangles);
    must(twice.positions_m.size() == once.positions_m.size());
    for (std::size_t k = 0; k < once.positions_m.size(); ++k) {
      // What 16 bits may be off by, or a float.
      const double off_m = std::max(1e-5, 1e-7 * length(once.positions_m[k]));
      must(length(twice.positions_m[k] - once.positions_m[k]) < off_m);
    }
  }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Bytes bytes(data, data + size);
  if (!bytes.empty() && bytes[0] == 'J') {
    bytes = as_glb(bytes);
  }
  const ModelLimits limits = small_limits();
  const ModelReport report = read_model_bytes(bytes, "model.glb", "/nonexistent-folder", limits);
  check(report, limits);
  check_again(report, limits);
  return 0;
}
