// What hides the part in hand: how much, who, and that it does not flicker.

#include "scene/load/load.h"
#include "viewer/stage/see_through.h"
#include "viewer/stage/stage.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace lugline;

namespace {

constexpr double pi = std::numbers::pi;

/// A flat square that looks at the eye of a camera above 12 o'clock, level.
std::shared_ptr<const Mesh> square(double size_m) {
  auto mesh = std::make_shared<Mesh>();
  const double s = size_m / 2;
  mesh->positions_m = {{s, 0, -s}, {-s, 0, -s}, {-s, 0, s}, {s, 0, s}};
  mesh->normals.assign(4, {0, 1, 0});
  mesh->triangles = {{0, 1, 2}, {0, 2, 3}};
  mesh->ranges = {{"steel", 0, 2}};
  return mesh;
}

Picture picture_of(const std::shared_ptr<const Mesh>& mesh) {
  Picture picture;
  PictureItem item;
  item.id = "hand";
  item.mesh = mesh;
  item.role = Role::in_hand;
  picture.items.push_back(item);
  picture.camera.rise_rad = 0;
  picture.camera.distance_m = 1000; // as good as parallel
  return picture;
}

Solid tube(double inner_m, double outer_m, double low_m, double high_m) {
  Solid solid;
  solid.rings.push_back({inner_m, outer_m, low_m, high_m, {}, "", ""});
  return solid;
}

const Stage& stage() {
  static const Stage made = [] {
    const LoadReport report =
        load_unit(std::string(LUGLINE_ROOT) + "/assets-demo/hobspindle-three");
    REQUIRE(report.unit != nullptr);
    return Stage(report.unit);
  }();
  return made;
}

std::vector<std::string> outlined(const Picture& picture) {
  std::vector<std::string> ids;
  for (const PictureItem& item : picture.items) {
    if (item.outline) {
      ids.push_back(item.id);
    }
  }
  return ids;
}

} // namespace

TEST_CASE("what a tube hides of a face inside it is its share of the face's height") {
  SurfacePlaces places;
  const Picture picture = picture_of(square(0.1));
  const Solid low = tube(0.2, 0.21, -0.05, 0); // the lower half
  const Solid window = tube(0.2, 0.21, 0.025, 0.05);
  const Solid behind = tube(0.2, 0.21, 0.06, 0.2); // above the face
  std::vector<Cover> covers{{"low", &low, 0, 0, 0, false},
                            {"window", &window, 0, 0, 0, false},
                            {"behind", &behind, 0, 0, 0, false}};
  CoverShares shares = cover_of_hand(picture, covers, places);
  CHECK(shares.shares[0] == Approx(0.5).margin(0.04));
  CHECK(shares.shares[1] == Approx(0.25).margin(0.04));
  CHECK(shares.shares[2] == 0);
  CHECK(shares.covered == Approx(0.75).margin(0.05));

  // Raised by half its height, the tube hides all of the upper half instead.
  covers[0].height_m = 0.05;
  shares = cover_of_hand(picture, covers, places);
  CHECK(shares.shares[0] == Approx(0.5).margin(0.04));
  CHECK(shares.covered == Approx(0.5).margin(0.04));
}

TEST_CASE("the cut and the gaps between sectors are looked through") {
  SurfacePlaces places;
  Picture picture = picture_of(square(0.1));
  Solid whole = tube(0.2, 0.21, -0.1, 0.1);
  std::vector<Cover> covers{{"tube", &whole, 0, 0, 0, true}};
  CHECK(cover_of_hand(picture, covers, places).covered == 1);
  picture.cut = {true, -pi / 4, pi / 4};
  CHECK(cover_of_hand(picture, covers, places).covered == 0);
  covers[0].cut = false;
  CHECK(cover_of_hand(picture, covers, places).covered == 1);
  picture.cut.on = false;
  // A third of a ring: in front of the face, or turned away from it.
  whole.rings[0].sectors = {radial_sector(0, 2 * pi / 3)};
  CHECK(cover_of_hand(picture, covers, places).covered == 1);
  covers[0].turn_rad = pi;
  CHECK(cover_of_hand(picture, covers, places).covered == 0);
  // Seen from behind, the face does not look at the eye at all.
  picture.camera.turn_rad = pi;
  CHECK(cover_of_hand(picture, covers, places).covered == 0);
}

TEST_CASE("seen through begins above a half and lasts a little longer") {
  const Solid solid = tube(0.2, 0.21, 0, 1);
  const std::vector<Cover> covers{{"big", &solid, 0, 0, 0, false},
                                  {"small", &solid, 0, 0, 0, false}};
  const auto at = [&](double share, const std::vector<std::string>& before) {
    return seen_through({share, {share, 0.09}}, covers, SeeThrough::automatic, before);
  };
  CHECK(at(0.50, {}).empty());
  CHECK(at(0.60, {}) == std::vector<std::string>{"big"});
  CHECK(at(0.50, {"big"}) == std::vector<std::string>{"big"});
  CHECK(at(0.50, {"big", "small"}) == std::vector<std::string>{"big", "small"});
  CHECK(at(0.40, {"big"}).empty());
  CHECK(seen_through({0.2, {0.2, 0.01}}, covers, SeeThrough::always, {}) ==
        std::vector<std::string>{"big"});
  CHECK(seen_through({1, {1, 1}}, covers, SeeThrough::off, {"big"}).empty());
}

TEST_CASE("while the eye goes once round and back, no part flickers") {
  ViewState view;
  view.step = stage().unit().step_index("drum in");
  REQUIRE(view.step < stage().step_count());
  view.moment = 0.9;
  int changes = 0;
  std::vector<std::string> before;
  std::vector<std::vector<std::string>> seen;
  constexpr int steps = 180;
  for (int i = 0; i < steps; ++i) {
    // Two degrees on, and each time a tremble of a tenth either way about it.
    for (const double tremble : {0.0, 0.1, -0.1, 0.0}) {
      view.view.turn_rad = (2.0 * i + tremble) * pi / 180;
      view.seen_through = before;
      const std::vector<std::string> now = outlined(stage().picture(view, 1.4));
      if (now != before) {
        ++changes;
      }
      before = now;
    }
    seen.push_back(before);
  }
  INFO("changes " << changes);
  CHECK(changes <= 24);
  CHECK(std::ranges::any_of(seen, [](const auto& ids) { return !ids.empty(); }));
  CHECK(std::ranges::any_of(seen, [](const auto& ids) { return ids.empty(); }));
}

TEST_CASE("what is in hand is never an outline, and nothing is where nothing is in hand") {
  for (std::size_t i = 0; i < stage().step_count(); i += 3) {
    ViewState view;
    view.step = i;
    view.moment = 0.5;
    view.settings.see_through = SeeThrough::always;
    const Picture picture = stage().picture(view, 1.4);
    const bool any = std::ranges::any_of(
        picture.items, [](const PictureItem& item) { return item.role == Role::in_hand; });
    for (const PictureItem& item : picture.items) {
      if (item.role == Role::in_hand || !any) {
        CHECK_FALSE(item.outline);
      }
    }
    view.settings.see_through = SeeThrough::off;
    CHECK(outlined(stage().picture(view, 1.4)).empty());
  }
}
