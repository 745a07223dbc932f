// The demo's upper drum against its data's own arithmetic. The figures are
// invented; each is worked out beside its check. d is the depth from the inner
// face of the drum's web, z the height in the case.

#include "tests/build/demo.h"

#include "scene/build/explain.h"

#include <catch2/catch.hpp>

#include <map>
#include <set>

using namespace lugline;
using namespace lugline::test;

namespace {

constexpr double told_mm = 0.005;

/// The part lowered again as its last step lowers it, but with some pieces off.
Lowered lowered_off(const std::string& part, std::vector<std::string> off) {
  Demo& d = demo();
  const std::size_t step = d.lowering(part);
  LowerOptions options;
  options.seat = d.unit->steps[step].seat;
  options.expected_m = d.simulation.outcomes[step].lowered->expected_m;
  options.off = std::move(off);
  const PlaceState& place = d.simulation.before(step).places.at(d.unit->steps[step].place);
  return lower(*d.workshop, *d.simulation.outcomes[step].hand, place, options);
}

std::map<std::string, double> causes_mm(const std::string& part) {
  Demo& d = demo();
  std::map<std::string, double> by_words;
  for (const Cause& cause : likely_causes(*d.workshop, d.simulation, d.lowering(part))) {
    by_words[cause.words] = cause.stand_off_m / mm;
  }
  return by_words;
}

double reading_mm(const Simulation& simulation, const std::string& step) {
  const auto& reading = simulation.outcomes[demo().step(step)].reading;
  REQUIRE(reading.has_value());
  return reading->value_m / mm;
}

/// Where a piece stands after a step.
double height_mm(const std::string& step, const std::string& place, const std::string& id) {
  const Fitted* piece = demo().simulation.after[demo().step(step)].places.at(place).find(id);
  INFO(id);
  REQUIRE(piece != nullptr);
  return piece->height_m / mm;
}

const Fitted& in_case(const std::string& id) {
  const Fitted* piece = demo().simulation.after.back().places.at("case").find(id);
  INFO(id);
  REQUIRE(piece != nullptr);
  return *piece;
}

/// The height of a piece's lower face in the case.
double low_mm(const std::string& id) {
  const Fitted& piece = in_case(id);
  return (piece.height_m + shape_of(*demo().workshop, piece).low_m()) / mm;
}

} // namespace

TEST_CASE("the upper drum on its bench: clearance, hub height, hub play") {
  const Simulation& simulation = demo().simulation;
  // 41.70 - 14.00 - (2.60 + 5 x 1.80 + 5 x 2.00 + 5.20)
  CHECK(reading_mm(simulation, "upper clearance") == Approx(0.90).margin(told_mm));
  // 1.60 + 64.30 - 57.00
  CHECK(reading_mm(simulation, "upper hub height") == Approx(8.90).margin(told_mm));
  // 51.90 - (1.60 + 64.30 + 1.60 - 22.00 + 6.00)
  CHECK(reading_mm(simulation, "upper hub play") == Approx(0.40).margin(told_mm));
  // Springs between piston and retainer: 22.00 - 7.00.
  const PlaceState& bench = simulation.after[demo().step("upper release")].places.at("upper bench");
  CHECK(bench.find("UC-SPR")->squashed_to_m / mm == Approx(15.00).margin(told_mm));
}

TEST_CASE("the upper pack's plates lie where the data has them") {
  // The web's inner face is at 98.50 on the bench: the drum's 155.50 and -57.00 change over.
  const std::map<std::string, double> d_mm{{"UC-CUSH", 14.0}, {"UC-S1", 16.6}, {"UC-F1", 18.4},
                                           {"UC-S2", 20.4},   {"UC-F2", 22.2}, {"UC-S3", 24.2},
                                           {"UC-F3", 26.0},   {"UC-S4", 28.0}, {"UC-F4", 29.8},
                                           {"UC-S5", 31.8},   {"UC-F5", 33.6}, {"UC-BP", 35.6}};
  for (const auto& [id, expected_mm] : d_mm) {
    CHECK(height_mm("upper backing plate", "upper bench", id) - 98.5 ==
          Approx(expected_mm).margin(told_mm));
  }
  for (const auto& [id, groove_mm] : {std::pair{"UC-RING1", 41.4}, std::pair{"UC-RING2", 51.6}}) {
    CHECK(height_mm("upper ring 2", "upper bench", id) - 98.5 == Approx(groove_mm).margin(told_mm));
  }
}

TEST_CASE("a friction that is not picked up holds the upper hub up, five of them in turn") {
  // Friction 1's top at d 20.40 less the tooth ends at 17.40, then a friction and a
  // steel, 3.80, for each further one.
  const double expected_mm[] = {3.00, 6.80, 10.60, 14.40, 18.20};
  for (int i = 0; i < 5; ++i) {
    const std::string plate = "UC-F" + std::to_string(i + 1);
    const Lowered lowered = lowered_off("UC-HUB", {plate});
    INFO(plate);
    CHECK(lowered.stand_off_m / mm == Approx(expected_mm[i]).margin(told_mm));
    CHECK(lowered.stands_on == plate);
    CHECK(lowered.engaged.size() == static_cast<std::size_t>(4 - i));
  }
  const auto causes = causes_mm("UC-HUB");
  CHECK(causes.at("T10 washer is left out") == Approx(-1.60).margin(told_mm));
}

TEST_CASE("rings 1 and 2 in one another's grooves") {
  Demo& d = demo();
  Workshop swapped(*d.unit, {{"UC-RING1", {2.0 * mm, 0}}, {"UC-RING2", {1.8 * mm, 0}}});
  REQUIRE(swapped.refused().empty());
  const Simulation simulation = simulate(swapped);
  CHECK(reading_mm(simulation, "upper clearance") == Approx(0.70).margin(told_mm));
  CHECK(reading_mm(simulation, "upper hub play") == Approx(0.60).margin(told_mm));
}

TEST_CASE("turned over the upper drum's pack hangs on ring 1 and its hubs on ring 2") {
  // In the drum's own frame, the web's inner face at 0: ring 2 on its groove's lower face.
  const auto at = [](const std::string& id) {
    return height_mm("upper drum over", "upper bench", id) -
           height_mm("upper drum over", "upper bench", "UC-DRUM");
  };
  CHECK(at("UC-RING2") == Approx(-53.9).margin(told_mm));
  CHECK(at("UC-RING1") == Approx(-43.5).margin(told_mm));
  // As built the skirt's end is at -87.50, the hub's rear end at -65.90: 0.40 lower.
  CHECK(at("UC-MHUB") == Approx(-87.9).margin(told_mm));
  CHECK(at("UC-HUB") == Approx(-66.3).margin(told_mm));
  // T9 and T7 go with the middle hub, T10 stays at the web.
  CHECK(at("UC-T9") == Approx(-67.9).margin(told_mm));
  CHECK(at("UC-T10") == Approx(-0.4).margin(told_mm)); // of its datum: the tabs are 1.20 up
  // The backing plate as built is at -40.80: 0.90 lower.
  CHECK(at("UC-BP") == Approx(-41.7).margin(told_mm));
}

TEST_CASE("the upper drum home: T7, the hubs and both washers carry it, solid") {
  Demo& d = demo();
  const Lowered& home = *d.simulation.outcomes[d.lowering("UC-DRUM")].lowered;
  CHECK(home.seated);
  CHECK(home.stands_on == "MC-DRUM");
  CHECK(home.by == "MC-T7");
  CHECK(reading_mm(d.simulation, "upper drum depth") == Approx(33.80).margin(told_mm));
  // 198.00, + 1.60, + 7.40, + 1.60, + 64.30, + 1.60; a washer's lower face with its
  // tabs down is 1.20 above its lowest, with its tabs up it is its lowest.
  CHECK(low_mm("MC-T7") == Approx(198.0).margin(told_mm));
  CHECK(low_mm("UC-MHUB") + 12.6 == Approx(199.6).margin(told_mm));
  CHECK(low_mm("UC-T9") + 1.2 == Approx(207.0).margin(told_mm));
  CHECK(low_mm("UC-HUB") == Approx(208.6).margin(told_mm));
  CHECK(low_mm("UC-T10") == Approx(272.9).margin(told_mm));
  CHECK(in_case("UC-DRUM").height_m / mm == Approx(274.5).margin(told_mm));
  // Its pack hangs again: ring 1 down at 231.00, the plates on it.
  CHECK(low_mm("UC-RING1") == Approx(231.0).margin(told_mm));
  CHECK(low_mm("UC-BP") == Approx(232.8).margin(told_mm));
  CHECK(low_mm("UC-F1") == Approx(253.2).margin(told_mm));
  CHECK(low_mm("UC-RING2") == Approx(220.6).margin(told_mm));
  // Each stands on the next, down to the tower.
  std::string at = "UC-DRUM";
  for (const char* on : {"UC-T10", "UC-HUB", "UC-T9", "UC-MHUB", "MC-T7", "MC-DRUM"}) {
    CHECK(in_case(at).stands_on == on);
    at = on;
  }
}

TEST_CASE("a middle friction that is not picked up holds the upper drum by its own height") {
  // Friction 1's top at z 190.20 less the tooth ends at 187.00, then 4.20 for each
  // further one; what hung loose is pushed up before the drum is carried.
  const double expected_mm[] = {3.20, 7.40, 11.60, 15.80};
  for (int i = 0; i < 4; ++i) {
    const std::string plate = "MC-F" + std::to_string(i + 1);
    const Lowered lowered = lowered_off("UC-DRUM", {plate});
    INFO(plate);
    CHECK(lowered.stand_off_m / mm == Approx(expected_mm[i]).margin(told_mm));
    CHECK(lowered.stands_on == plate);
    CHECK(lowered.by == "UC-MHUB");
    CHECK(lowered.engaged.size() == static_cast<std::size_t>(3 - i));
  }
}

TEST_CASE("the main shaft's spline not entered holds the upper drum by its hub") {
  // The shaft's spline ends at z 262.00, the hub's begins at 208.60.
  const Lowered off = lowered_off("UC-DRUM", {"RT-MS"});
  CHECK(off.stand_off_m / mm == Approx(53.40).margin(told_mm));
  CHECK(off.stands_on == "RT-MS");
  CHECK(off.by == "UC-HUB");
  CHECK(causes_mm("UC-DRUM").at("the spline of main shaft is not entered") ==
        Approx(53.40).margin(told_mm));
}

TEST_CASE("T7, T9 and T10 left out read alike") {
  Demo& d = demo();
  const auto causes =
      explain(*d.workshop, d.simulation, d.lowering("UC-DRUM"), -1.55 * mm, 0.1 * mm);
  std::set<std::string> fitting;
  for (const Cause& cause : causes) {
    if (cause.fits) {
      fitting.insert(cause.part);
      CHECK(cause.stand_off_m / mm == Approx(-1.60).margin(told_mm));
      CHECK(cause.alike.size() == 2);
    }
  }
  CHECK(fitting == std::set<std::string>{"MC-T7", "UC-T9", "UC-T10"});
  const auto all_mm = causes_mm("UC-DRUM");
  CHECK(all_mm.at("T7 washer is laid in twice") == Approx(1.60).margin(told_mm));
  // Of the washers beneath, only T6 has room for a second one without an earlier reading.
  std::set<std::string> twice;
  for (const auto& [words, stand_off_mm] : all_mm) {
    if (words.find("twice") != std::string::npos) {
      twice.insert(words);
    }
  }
  CHECK(twice ==
        std::set<std::string>{"T7 washer is laid in twice", "thrust washer is laid in twice"});
  // T6 left out lets the middle drum down by 0.50, and the upper drum with it.
  CHECK(all_mm.at("thrust washer is left out") == Approx(-0.50).margin(told_mm));
}

TEST_CASE("brought turned over in one step the upper drum comes to the same rest") {
  const LoadReport report =
      demo_with("sequence.toml", "part = \"UC-DRUM\"\nbrings = \"upper bench\"\n",
                "part = \"UC-DRUM\"\nbrings = \"upper bench\"\n"
                "way_up = \"turned over\"\n");
  REQUIRE(report.unit != nullptr);
  // The step before no longer turns it over.
  Unit unit = *report.unit;
  unit.steps[unit.step_index("upper drum over")].kind = StepKind::note;
  Workshop workshop(unit, {});
  const Simulation simulation = simulate(workshop);
  CHECK(simulation.outcomes[unit.step_index("upper drum in")].problems.empty());
  CHECK(reading_mm(simulation, "upper drum depth") == Approx(33.80).margin(told_mm));
}

TEST_CASE("the upper drum takes up no room that something else takes up") {
  Demo& d = demo();
  for (const char* step : {"upper ring 2", "upper drum over", "upper drum in"}) {
    const BuildState& state = d.simulation.after[d.step(step)];
    const PlaceState& place = *state.place_with("UC-DRUM");
    const Bodies all = bodies_in(*d.workshop, place);
    std::size_t pairs = 0;
    for (std::size_t i = 0; i < all.bodies.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        INFO(step << ": " << all.ids[i] << " and " << all.ids[j]);
        CHECK(fit_between(all.bodies[i], all.bodies[j], contact_tolerance_m).fit != Fit::inside);
        ++pairs;
      }
    }
    CHECK(pairs > 200);
  }
}
