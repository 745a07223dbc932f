// A mesh as FCL, the independent judge, wants it. Static queries only: its
// continuous ones miss certain hits.
#pragma once

#include "scene/mesh/mesh.h"

#include <fcl/fcl.h>

#include <memory>
#include <vector>

namespace lugline::test {

using FclModel = fcl::BVHModel<fcl::OBBRSSd>;

inline std::shared_ptr<FclModel> fcl_model_of(const Mesh& mesh) {
  std::vector<fcl::Vector3d> points;
  std::vector<fcl::Triangle> triangles;
  for (const Vec3& p : mesh.positions_m) {
    points.emplace_back(p.x, p.y, p.z);
  }
  for (const auto& t : mesh.triangles) {
    triangles.emplace_back(t[0], t[1], t[2]);
  }
  auto model = std::make_shared<FclModel>();
  model->beginModel();
  model->addSubModel(points, triangles);
  model->endModel();
  return model;
}

inline bool meet(fcl::CollisionObjectd& a, fcl::CollisionObjectd& b) {
  fcl::CollisionRequestd request;
  fcl::CollisionResultd result;
  return fcl::collide(&a, &b, request, result) > 0;
}

} // namespace lugline::test
