// Parts that show everything write_glb does, for its tests and for judges outside the project.
#pragma once

#include "scene/mesh/gltf.h"

#include "tests/mesh/shapes.h"

#include <memory>

namespace lugline::samples {

/// Owns the meshes that its parts point to.
struct Sample {
  std::string name;
  std::vector<std::unique_ptr<Mesh>> meshes;
  std::vector<ModelPart> parts;

  void add(const std::string& part, Mesh mesh, const std::string& extras = {}) {
    meshes.push_back(std::make_unique<Mesh>(std::move(mesh)));
    parts.push_back({part, meshes.back().get(), extras});
  }
};

/// A ring whose normals are smooth round the axis.
inline Mesh smooth_ring(double outer_m, double inner_m, double thickness_m, int n,
                        const std::string& material) {
  Mesh mesh = shapes::ring(outer_m, inner_m, thickness_m, n, material);
  for (std::size_t i = 0; i < mesh.positions_m.size(); ++i) {
    if (mesh.normals[i].z == 0) {
      const Vec3 out = unit_or({mesh.positions_m[i].x, mesh.positions_m[i].y, 0}, {1, 0, 0});
      mesh.normals[i] = dot(out, mesh.normals[i]) > 0 ? out : -out;
    }
  }
  return mesh;
}

inline std::vector<Sample> all() {
  std::vector<Sample> samples;

  Sample one{"one", {}, {}};
  one.add("steel plate", smooth_ring(0.0751, 0.0602, 0.00198, 96, "steel"),
          R"({"lugline":{"schema":1,"id":"S1","name":"Stahl ä"},"n":[1,2.5,true,null]})");
  samples.push_back(std::move(one));

  Sample many{"many", {}, {}};
  for (const char* material : {"steel", "iron", "aluminium", "bronze", "friction lining", "rubber",
                               "spring steel", "tool", "mystery metal", ""}) {
    many.add(std::string("part of ") + material, smooth_ring(0.05, 0.03, 0.004, 24, material));
  }
  Mesh lined = smooth_ring(0.07, 0.05, 0.001, 48, "friction lining");
  append(lined,
         placed(smooth_ring(0.07, 0.045, 0.0008, 48, "steel"), Placement::moved({0, 0, 0.001})));
  append(lined, placed(smooth_ring(0.07, 0.05, 0.001, 48, "friction lining"),
                       Placement::moved({0, 0, 0.0018})));
  many.add("lined plate", std::move(lined));
  many.parts.push_back({"lined plate again", many.parts.back().mesh, "{}"});
  many.parts.push_back({"no shape", nullptr, R"({"only":"words"})"});
  samples.push_back(std::move(many));

  // More vertices than 16-bit indices reach, beside a mesh that they do.
  Sample large{"large", {}, {}};
  large.add("large", smooth_ring(0.1, 0.09, 0.01, 4200, "aluminium"));
  large.add("small", shapes::box({-0.01, -0.02, -0.03}, {0.01, 0.02, 0.03}, "steel"));
  samples.push_back(std::move(large));

  samples.push_back({"nothing", {}, {}});
  return samples;
}

} // namespace lugline::samples
