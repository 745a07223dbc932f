#include "scene/drive/losses.h"

#include "tests/drive/demo_train.h"

#include <catch2/catch.hpp>

using namespace lugline;

namespace {

// Sun 30, ring 72: rho = 2.4. One end is the input, one the output, the third is held.
TrainLosses losses(const char* input, const char* held, const char* output, double mesh,
                   TrainDuty duty = TrainDuty::pull) {
  Drive drive;
  drive.input = input;
  drive.output = output;
  for (const char* id : {"sun", "ring", "carrier"}) {
    drive.members.push_back({id, id, {}});
  }
  PlanetarySet set;
  set.id = "set";
  set.sun = "sun";
  set.ring = "ring";
  set.carrier = "carrier";
  set.sun_teeth = 30;
  set.pinion_teeth = 21;
  set.ring_teeth = 72;
  drive.sets = {set};
  DriveElement brake;
  brake.id = "brake";
  brake.of = held;
  brake.to = case_member;
  drive.elements = {brake};
  return losses_of(drive, {{"brake"}, {}, {}}, duty, mesh);
}

constexpr double rho = 2.4;

} // namespace

TEST_CASE("losses of a simple set, by its six closed forms") {
  // Müller, Epicyclic Drive Trains: with the carrier held the set has the basic efficiency eta0,
  // here of two meshes; with another member held it follows from the way the power rolls. From
  // memory.
  const double mesh = 0.98;
  const double eta0 = mesh * mesh;
  CHECK(losses("sun", "carrier", "ring", mesh).efficiency == Approx(eta0));
  CHECK(losses("ring", "carrier", "sun", mesh).efficiency == Approx(eta0));
  CHECK(losses("sun", "ring", "carrier", mesh).efficiency == Approx((1 + rho * eta0) / (1 + rho)));
  CHECK(losses("carrier", "ring", "sun", mesh).efficiency == Approx((1 + rho) / (1 + rho / eta0)));
  CHECK(losses("ring", "sun", "carrier", mesh).efficiency ==
        Approx((1 + eta0 / rho) / (1 + 1 / rho)));
  CHECK(losses("carrier", "sun", "ring", mesh).efficiency ==
        Approx((1 + 1 / rho) / (1 + 1 / (rho * eta0))));
  // Coasting, the ends change places.
  CHECK(losses("sun", "ring", "carrier", mesh, TrainDuty::coast).efficiency ==
        Approx((1 + rho) / (1 + rho / eta0)));
}

TEST_CASE("a block loses nothing, a lossless mesh nothing, and the demo's ranges a little") {
  const Drive drive = demo_train();
  CHECK(losses("sun", "ring", "carrier", 1).efficiency == 1);
  const auto in_range = [&](const char* id) {
    return losses_of(drive, applied_in(*drive.range(id)), TrainDuty::pull, 0.985);
  };
  CHECK(in_range("D3").efficiency == 1);
  CHECK(in_range("D1").known);
  CHECK(in_range("D1").efficiency < in_range("D2").efficiency);
  CHECK(in_range("D2").efficiency < 1);
  CHECK(in_range("R").torque > -25.0 / 11);
  CHECK(in_range("R").torque < -2.1);
}

TEST_CASE("losses that are not worked out are said so") {
  const Drive drive = demo_train();
  const auto words = [&](const char* id, double mesh) {
    const TrainLosses found = losses_of(drive, applied_in(*drive.range(id)), TrainDuty::pull, mesh);
    CHECK_FALSE(found.known);
    return found.words;
  };
  CHECK(words("D1", 0) == "The efficiency of a tooth mesh is above 0 and at most 1.");
  CHECK(words("D1", 1.01) == "The efficiency of a tooth mesh is above 0 and at most 1.");
  CHECK(words("D1", 98.5) == "The efficiency of a tooth mesh is above 0 and at most 1.");
  CHECK(words("N", 0.98) ==
        "No power goes through: Neutral: the input turns and nothing drives the output.");
  CHECK(words("M1", 0.98) == "Several elements hold the same thing: balance does not tell how "
                             "they share, so neither what the teeth lose.");
  const CalculationReport report = report_losses(drive, *drive.range("N"), TrainDuty::pull, 0.98);
  CHECK(report.verdict == ReportVerdict::refused);
  CHECK(report_losses(drive, *drive.range("D1"), TrainDuty::pull, 0.98).verdict !=
        ReportVerdict::refused);
}

TEST_CASE("a train of great reduction locks itself backwards") {
  // Two stepped trains that all but cancel: driven from the slow end its teeth lose more than they
  // are given.
  Drive drive;
  drive.input = "arm";
  drive.output = "wheel";
  for (const char* id : {"arm", "wheel", "held"}) {
    drive.members.push_back({id, id, {}});
  }
  PlanetarySet set;
  set.id = "set";
  set.kind = PlanetaryKind::double_pinion;
  set.sun = "held";
  set.ring = "wheel";
  set.carrier = "arm";
  set.sun_teeth = 99;
  set.ring_teeth = 100;
  set.pinion_teeth = 20;
  set.outer_pinion_teeth = 20;
  drive.sets = {set};
  DriveElement brake;
  brake.id = "brake";
  brake.of = "held";
  brake.to = case_member;
  drive.elements = {brake};
  const TrainLosses forward = losses_of(drive, {{"brake"}, {}, {}}, TrainDuty::pull, 0.98);
  CHECK(forward.known);
  CHECK(forward.efficiency < 0.2);
  const TrainLosses back = losses_of(drive, {{"brake"}, {}, {}}, TrainDuty::coast, 0.98);
  CHECK_FALSE(back.known);
  CHECK(back.words.find("locks itself") != std::string::npos);
}
