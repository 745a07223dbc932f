// What stays whole where the cut passes: by what a part is, and body by body.

#include "scene/load/load.h"
#include "viewer/stage/stage.h"
#include "viewer/stage/whole_in_cut.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace lugline;

namespace {

constexpr double pi = std::numbers::pi;

/// A four-sided body: enough to be one.
void add_body(Mesh& mesh, double radius_m, double angle_rad, double size_m) {
  const auto first = static_cast<std::uint32_t>(mesh.positions_m.size());
  const Vec3 middle{-radius_m * std::sin(angle_rad), radius_m * std::cos(angle_rad), 0};
  const double s = size_m / 2;
  for (const Vec3& corner : {Vec3{s, s, s}, Vec3{s, -s, -s}, Vec3{-s, s, -s}, Vec3{-s, -s, s}}) {
    mesh.positions_m.push_back({middle.x + corner.x, middle.y + corner.y, middle.z + corner.z});
    mesh.normals.push_back({0, 0, 1});
  }
  for (const auto& corners :
       {std::array<std::uint32_t, 3>{0, 1, 2}, {0, 2, 3}, {0, 3, 1}, {1, 3, 2}}) {
    mesh.triangles.push_back({first + corners[0], first + corners[1], first + corners[2]});
  }
  mesh.ranges = {{"steel", 0, static_cast<std::uint32_t>(mesh.triangles.size())}};
}

Component turned(double bored_to_m, ComponentKind kind) {
  Component part;
  part.kind = kind;
  if (bored_to_m > 0) {
    part.solid.rings.push_back({0.004, 0.01, 0, bored_to_m, {}, "", ""});
  }
  part.solid.rings.push_back({0, 0.01, bored_to_m, 0.1, {}, "", ""});
  return part;
}

} // namespace

TEST_CASE("a shaft stays whole where its axis runs in metal, and is cut where it is hollow") {
  CHECK(in_cut(turned(0, ComponentKind::shaft)) == InCut::whole);
  CHECK(in_cut(turned(0.015, ComponentKind::shaft)) == InCut::whole); // centre drilled
  CHECK(in_cut(turned(0.05, ComponentKind::shaft)) == InCut::cut);
  CHECK(in_cut(turned(0, ComponentKind::drum)) == InCut::cut);
  CHECK(in_cut(turned(0, ComponentKind::bolt)) == InCut::round_bodies);
}

TEST_CASE("bodies stand or are gone as one, and a race round the axis is cut") {
  auto mesh = std::make_shared<Mesh>();
  constexpr int bodies = 8;
  for (int i = 0; i < bodies; ++i) {
    add_body(*mesh, 0.05, 2 * pi * i / bodies, 0.01);
  }
  Cut cut{true, -pi / 4, pi / 4}; // body 0 is inside, 1 and 7 lie with their middles on the planes
  BodySorter sorter;
  const CutShares loose = sorter.shares(mesh, {}, cut);
  CHECK(loose.cut == nullptr);
  REQUIRE(loose.whole != nullptr);
  CHECK(loose.whole->triangles.size() == 4 * 7);
  CHECK(slip_in(*loose.whole).empty());
  CHECK(sorter.shares(mesh, {}, cut).whole == loose.whole); // the same, not another like it

  // Turned half a gap on, two middles are inside; turned over, the same.
  Pose turned_on;
  turned_on.turn_rad = pi / bodies;
  CHECK(sorter.shares(mesh, turned_on, cut).whole->triangles.size() == 4 * 6);
  turned_on.over_rad = pi;
  CHECK(sorter.shares(mesh, turned_on, cut).whole->triangles.size() == 4 * 6);
  // Moved aside, to where no wedge reaches.
  Pose aside;
  aside.aside_m = 1;
  CHECK(sorter.shares(mesh, aside, cut).whole == mesh);
  // More than half a turn taken out: only the bodies opposite stand, and those on the planes.
  cut = {true, -3 * pi / 4, 3 * pi / 4};
  CHECK(sorter.shares(mesh, {}, cut).whole->triangles.size() == 4 * 3);

  add_body(*mesh, 0, 0, 0.2); // round the axis
  BodySorter again;
  const CutShares both = again.shares(mesh, {}, cut);
  REQUIRE(both.cut != nullptr);
  CHECK(both.cut->triangles.size() == 4);
  CHECK(both.whole->triangles.size() == 4 * 3);
}

TEST_CASE("in the finished unit nothing that stands whole hangs in the opening") {
  const LoadReport report = load_unit(std::string(LUGLINE_ROOT) + "/assets-demo/hobspindle-three");
  REQUIRE(report.unit != nullptr);
  const Stage stage(report.unit);
  ViewState view;
  view.step = stage.step_count() - 1;
  view.moment = 1;
  const Picture picture = stage.picture(view, 1.4);
  REQUIRE(picture.cut.on);
  int whole = 0;
  for (const PictureItem& item : picture.items) {
    const UnitComponent* component = report.unit->component(item.id);
    if (item.cut) {
      CHECK(in_cut(component->part) != InCut::whole);
      continue;
    }
    ++whole;
    CHECK(in_cut(component->part) != InCut::cut);
    if (in_cut(component->part) != InCut::round_bodies || item.mesh->triangles.empty()) {
      continue;
    }
    // Some of each body is left standing by the cut itself: no corner's neighbourhood floats.
    const Bounds bounds = bounds_of(*item.mesh);
    CHECK_FALSE(bounds.empty);
    double deepest_m = -1;
    for (const Vec3& point : item.mesh->positions_m) {
      deepest_m =
          std::max(deepest_m, depth_in_wedge_m(picture.cut, placed_point(item.pose, point)));
    }
    INFO(item.id);
    CHECK(deepest_m < 0.012); // half a bolt's head, not a bolt
  }
  CHECK(whole > 8);
  const auto named = [&](const char* id) {
    return std::ranges::find(picture.items, std::string(id), &PictureItem::id);
  };
  CHECK_FALSE(named("RT-MS")->cut); // solid
  CHECK(named("RT-SUN")->cut);      // runs round the main shaft
  CHECK(named("RT-OUT")->cut);      // with its cup
  CHECK_FALSE(named("PU-BOLT")->cut);
}
