// Prints what our reader makes of models, one line for each node that has a mesh,
// for judges outside the project (judge_glb.mjs) to compare. Not a test by itself.
#include "scene/mesh/gltf.h"

#include <nlohmann/json.hpp>

#include <iostream>

int main(int count, char** arguments) {
  int status = 0;
  for (int i = 1; i < count; ++i) {
    const std::filesystem::path file = arguments[i];
    const lugline::ModelReport report = lugline::read_model(file, file.parent_path());
    for (const std::string& problem : report.problems) {
      std::cerr << file.string() << ": " << problem << "\n";
      status = 1;
    }
    for (const lugline::ModelNode& node : report.nodes) {
      const lugline::Bounds b = lugline::bounds_of(node.mesh);
      nlohmann::json line = {{"file", file.string()},
                             {"node", node.name},
                             {"low_m", {b.low_m.x, b.low_m.y, b.low_m.z}},
                             {"high_m", {b.high_m.x, b.high_m.y, b.high_m.z}},
                             {"volume_m3", lugline::body_figures(node.mesh).volume_m3},
                             {"triangles", node.mesh.triangles.size()}};
      for (const lugline::MaterialRange& range : node.mesh.ranges) {
        line["materials"].push_back(range.material);
      }
      std::cout << line.dump() << "\n";
    }
  }
  return status;
}
