// A hub on a stack of free plates, with the tooth count, the plate count and
// the thicknesses at random: the plate that is off carries the hub at the
// height that the drop says, and the meshes confirm it.

#include "scene/recipe/recipe.h"
#include "scene/seat/drop.h"

#include "tests/fcl_model.h"

#include <catch2/catch.hpp>

#include <memory>
#include <numbers>
#include <random>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double hair_m = 0.02 * mm;

double between(std::mt19937& random, double low, double high) {
  return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
}

std::shared_ptr<test::FclModel> model_of(const Solid& solid) {
  return test::fcl_model_of(mesh_of(solid, "steel"));
}

fcl::CollisionObjectd placed(const std::shared_ptr<test::FclModel>& model, double height_m,
                             double turn_rad) {
  fcl::Transform3d pose = fcl::Transform3d::Identity();
  pose.translate(fcl::Vector3d(0, 0, height_m));
  pose.rotate(Eigen::AngleAxisd(turn_rad, fcl::Vector3d::UnitZ()));
  return {model, pose};
}

/// Figures of one random hub and its plates.
struct Case {
  int teeth;
  int plates;
  double plate_m;
  double spacer_m;
  double hub_m;
  double turn_rad;

  explicit Case(std::mt19937& random)
      : teeth(12 + static_cast<int>(random() % 60)), plates(1 + static_cast<int>(random() % 6)),
        plate_m(between(random, 1.2, 2.6) * mm), spacer_m(between(random, 1.2, 2.6) * mm),
        hub_m(plates * (plate_m + spacer_m) + 5 * mm),
        turn_rad(between(random, 0, 2 * std::numbers::pi)) {}

  [[nodiscard]] double pitch_rad() const { return 2 * std::numbers::pi / teeth; }

  [[nodiscard]] Solid hub() const {
    return {{{50 * mm, 64.7 * mm, 0, hub_m, {}, "", ""},
             {64.7 * mm, 67 * mm, 0, hub_m, repeated(radial_sector(0, pitch_rad() * 0.45), teeth),
              "tooth", ""}}};
  }
  [[nodiscard]] Solid plate() const {
    return {{{64.85 * mm, 67.1 * mm, 0, plate_m,
              repeated(radial_sector(0, pitch_rad() * 0.45), teeth), "tooth", ""},
             {67.1 * mm, 87 * mm, 0, plate_m, {}, "", ""}}};
  }
};

} // namespace

TEST_CASE("a plate that is off carries the hub where the meshes say") {
  std::mt19937 random(2026);
  int confirmed = 0;
  for (int round = 0; round < 60; ++round) {
    const Case figures(random);
    const Shape hub(figures.hub());
    const Shape plate(figures.plate());
    const Shape floor(Solid{{{40 * mm, 60 * mm, -3 * mm, 0, {}, "", ""}}});
    DropQuestion question;
    question.moving.push_back({"hub", &hub, 0, 0, spin_hand});
    question.below.push_back({"floor", &floor, 0, 0, spin_fixed});
    for (int i = 0; i < figures.plates; ++i) {
      const double height_m = 0.5 * mm + i * (figures.plate_m + figures.spacer_m);
      question.below.push_back({"plate", &plate, height_m, 0.1 * i, 2 + i});
    }
    const int off = static_cast<int>(random() % static_cast<unsigned>(figures.plates));
    question.spins = {{2 + off, FreeTurn::off}};
    const DropAnswer answer = drop(question);
    const double rest_m = *answer.at(figures.turn_rad).rest_m;
    INFO("round " << round << ", " << figures.teeth << " teeth, plate " << off << " of "
                  << figures.plates);
    // By hand: the top of the plate that is off.
    REQUIRE(rest_m ==
            Approx(0.5 * mm + off * (figures.plate_m + figures.spacer_m) + figures.plate_m));

    const auto turns = turns_after(question, figures.turn_rad);
    const auto hub_model = model_of(figures.hub());
    const auto plate_model = model_of(figures.plate());
    auto above = placed(hub_model, rest_m + hair_m, figures.turn_rad);
    auto pressed = placed(hub_model, rest_m - hair_m, figures.turn_rad);
    for (int i = 0; i < figures.plates; ++i) {
      double turn_rad = 0.1 * i;
      for (const SpinTurn& turn : turns) {
        turn_rad += turn.spin == 2 + i ? turn.turn_rad : 0;
      }
      auto there =
          placed(plate_model, question.below[static_cast<std::size_t>(i) + 1].height_m, turn_rad);
      CHECK_FALSE(test::meet(above, there));
      if (i == off) {
        CHECK(test::meet(pressed, there));
        ++confirmed;
      }
    }
  }
  CHECK(confirmed == 60);
}
