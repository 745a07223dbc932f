#include "scene/mesh/gltf_read.h"

#include "scene/mesh/gltf_build.h"
#include "scene/mesh/gltf_check.h"
#include "scene/mesh/gltf_handover.h"
#include "scene/mesh/gltf_uri.h"

#include <tiny_gltf.h>

namespace lugline {

namespace {

namespace fs = std::filesystem;
using gltf::Problems;
using nlohmann::json;

/// Empty where anything is wrong, with the problems told.
std::vector<ModelNode> nodes_in(json document, const gltf::BufferSources& sources,
                                const ModelLimits& limits, Problems& problems) {
  const gltf::Quantized quantized = gltf::check_asset(document, problems);
  if (!problems.none()) {
    return {}; // what a file of another kind or version holds cannot be judged
  }
  const auto buffers = gltf::check_buffers(document, sources, limits, problems);
  const auto views = gltf::check_views(document, buffers, problems);
  const auto accessors = gltf::check_accessors(document, buffers, views, limits, problems);
  gltf::check_images(document, views, problems);
  gltf::check_materials(document, limits, problems);
  const auto meshes = gltf::check_meshes(document, accessors, quantized, problems);
  const auto nodes = gltf::check_nodes(document, limits, problems);
  if (!problems.none()) {
    return {};
  }
  const auto roots = gltf::check_scenes(document, nodes, problems);
  if (problems.none()) {
    gltf::check_amount(nodes, roots, meshes, limits, problems);
  }
  tinygltf::Model model;
  if (!problems.none() || !gltf::hand_over(document, buffers, model, problems)) {
    return {};
  }
  auto built = gltf::nodes_from(model, document, nodes, roots, limits, problems);
  return problems.none() ? std::move(built) : std::vector<ModelNode>();
}

} // namespace

ModelReport read_model_bytes(std::span<const unsigned char> bytes, const std::string& name,
                             const fs::path& root, const ModelLimits& limits) {
  Problems problems(limits.problems);
  ModelReport report;
  const auto container = gltf::split_container(bytes, limits, problems);
  auto document =
      container ? gltf::parse_document(container->json, limits, problems) : std::optional<json>();
  if (document) {
    const gltf::BufferSources sources{*container, (root / name).parent_path(), root};
    report.nodes = nodes_in(std::move(*document), sources, limits, problems);
  }
  report.problems = problems.take();
  return report;
}

ModelReport read_model(const fs::path& file, const fs::path& root) {
  const ModelLimits limits;
  const auto bytes = gltf::read_inside(file, root, file.filename().string(), limits.file_bytes + 1);
  if (!bytes) {
    return {{}, {bytes.problem()}};
  }
  std::error_code error; // both have just been opened
  const fs::path name = fs::canonical(file, error).lexically_relative(fs::canonical(root, error));
  return read_model_bytes(bytes.value(), name.string(), root, limits);
}

} // namespace lugline
